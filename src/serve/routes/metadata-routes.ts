import { z } from 'zod';
import {
  metadataSheetEntry,
  metadataSheetList,
  metadataSheetTitle,
  putMetadataSheet,
} from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { sheetOrRefuse } from '../sheet-or-refuse.ts';
import type { WebApp } from '../web-app.ts';

/** Metadata sheets that are kept for further jobs. A job takes one over with `metadata` of its own. */
export function metadataRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/metadata',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'listMetadataSheets',
        summary: 'Metadata sheets that are kept for further jobs',
        response: { 200: jsonAnswer('The sheets', metadataSheetList), ...problemAnswers('operator-only') },
      },
    },
    () => desk.metadataSheets(),
  );
  app.post(
    '/api/v1/metadata',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'keepMetadataSheet',
        summary: 'Keeps a metadata sheet under its title, in the place of the one that has it',
        body: putMetadataSheet,
        response: {
          200: jsonAnswer('The sheet as it is kept now', metadataSheetEntry),
          201: jsonAnswer('The new sheet', metadataSheetEntry),
          ...problemAnswers('bad-value', 'operator-only', 'bad-metadata', 'too-many-sheets', 'not-json'),
        },
      },
    },
    async (request, reply) => {
      const { entry, isNew } = await desk.keepMetadataSheet(sheetOrRefuse(request.body.metadata));
      return reply.code(isNew ? 201 : 200).send(entry);
    },
  );
  app.delete(
    '/api/v1/metadata/:title',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'forgetMetadataSheet',
        summary: 'Forgets a kept metadata sheet; jobs that took it over have their own',
        params: z.object({ title: metadataSheetTitle }),
        response: {
          204: z.undefined().describe('It is forgotten'),
          ...problemAnswers('operator-only', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      if (await desk.forgetMetadataSheet(request.params.title)) return reply.code(204).send();
      throw new Refusal('not-found', 'No metadata sheet of this title is kept.');
    },
  );
  app.post(
    '/api/v1/metadata/:title/back',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'bringMetadataSheetBack',
        summary: 'Brings back the metadata sheet of this title that was forgotten last',
        params: z.object({ title: metadataSheetTitle }),
        response: {
          200: jsonAnswer('The sheet as it is kept again', metadataSheetEntry),
          ...problemAnswers('operator-only', 'not-found', 'sheet-there', 'too-many-sheets'),
        },
      },
    },
    async (request) => {
      const back = await desk.bringMetadataSheetBack(request.params.title);
      if (back === null) throw new Refusal('not-found', 'No metadata sheet of this title was forgotten.');
      return back;
    },
  );
}
