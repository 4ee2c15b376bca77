import { z } from 'zod';
import { importReport } from '../../contract/index.ts';
import { jobLimits } from '../../job/index.ts';
import { bytesAnswer, jsonAnswer, problemAnswers } from '../answers.ts';
import { readJsonShotList } from '../core/json-shot-list.ts';
import type { StationDesk } from '../desk.ts';
import type { ShotListFile } from '../job-calls.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders } from './if-match.ts';
import { jobParams, noSuchJob, patchBy } from './job-routes.ts';

/** Shot lists as files: in, with a look at what would happen, and out. */
export function shotListRoutes(app: WebApp, desk: StationDesk): void {
  app.addContentTypeParser('text/csv', { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
  app.post(
    '/api/v1/jobs/:job/shots/import',
    {
      bodyLimit: jobLimits.shotListBytesMax,
      schema: {
        tags: ['jobs'],
        operationId: 'importShots',
        summary:
          'Takes in a shot list as CSV (RFC 4180) or JSON; with `preview=1` only says what it would do',
        description:
          'The body is `text/csv` in UTF-8, UTF-16 with a mark or Windows-1252, columns found by name, or a list of shots as ' +
          '`application/json`: `{"shots": […]}`, as the export gives it. A line meets the shot of its id, else the one of its name, else is a new shot. The order ' +
          'of the list is taken over; nothing is taken away. Lines that cannot be read are named and left out.',
        params: jobParams,
        headers: ifMatchHeaders,
        querystring: z.object({
          preview: z
            .enum(['0', '1'])
            .default('0')
            .describe('1: change nothing, only say what would be changed'),
        }),
        consumes: ['text/csv', 'application/json'],
        response: {
          200: jsonAnswer('What was done, or would be', importReport),
          ...problemAnswers(
            'bad-value',
            'bad-text',
            'spreadsheet-file',
            'too-many-shots',
            'job-finished',
            'version-changed',
            'not-found',
            'too-large',
            'not-json',
          ),
        },
      },
    },
    async (request) => {
      const preview = request.query.preview === '1';
      const file = listIn(request.body);
      const report = await desk.importShots(request.params.job, file, preview, patchBy(request));
      if (report === null) throw noSuchJob();
      return report;
    },
  );
  app.get(
    '/api/v1/jobs/:job/shots/export',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'exportShots',
        summary: 'The shot list as a file that can be taken in again',
        params: jobParams,
        querystring: z.object({ format: z.enum(['csv', 'json']).default('csv') }),
        response: {
          200: bytesAnswer('The list', 'text/csv', 'application/json'),
          ...problemAnswers('bad-value', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { format } = request.query;
      const text = await desk.exportShots(request.params.job, format);
      if (text === null) throw noSuchJob();
      const type = format === 'csv' ? 'text/csv; charset=utf-8; header=present' : 'application/json';
      // As bytes: what goes out is a file, and no further form is put on it.
      return reply
        .type(type)
        .header('content-disposition', `attachment; filename="shots.${format}"`)
        .send(Buffer.from(text));
    },
  );
}

/** By what the parser of its media type made of it: bytes of CSV, or a value of JSON. */
function listIn(body: unknown): ShotListFile {
  if (body instanceof Uint8Array) return { kind: 'csv', bytes: body };
  return { kind: 'json', list: readJsonShotList(body) };
}
