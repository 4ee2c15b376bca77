import { z } from 'zod';
import { cameraEntry, cameraPatch, diaryPage, newCamera } from '../../contract/index.ts';
import { bytesAnswer, jsonAnswer, problemAnswers } from '../answers.ts';
import { attachmentDisposition } from '../core/attachment-name.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { shortName } from './path-values.ts';

/** What can be wrong with a public key that is to be added. */
const keyProblems = ['private-key', 'bad-key', 'unknown-key-kind', 'weak-key'] as const;

export function cameraRoutes(app: WebApp, desk: StationDesk): void {
  app.post(
    '/api/v1/cameras',
    {
      schema: {
        tags: ['station'],
        operationId: 'addCamera',
        summary: 'Lets one more camera in, with a password of its own',
        body: newCamera,
        response: {
          201: jsonAnswer('The camera with its log-in', cameraEntry),
          ...problemAnswers(
            ...keyProblems,
            'bad-value',
            'not-json',
            'bad-camera-name',
            'everywhere-and-more',
            'bad-allow-rule',
            'camera-exists',
          ),
        },
      },
    },
    async (request, reply) => reply.code(201).send(await desk.addCamera(request.body, callerOf(request))),
  );
  app.get(
    '/api/v1/cameras/:camera/sheet.pdf',
    {
      schema: {
        tags: ['station'],
        operationId: 'getCameraSheet',
        summary: 'What to enter on a camera, password and all, as PDF to print',
        params: z.object({ camera: shortName }),
        response: {
          200: bytesAnswer('A page for each way in', 'application/pdf'),
          ...problemAnswers('not-found', 'operator-only'),
        },
      },
    },
    async (request, reply) => {
      const { camera } = request.params;
      const pdf = await desk.cameraSheet(camera);
      if (pdf === null) throw new Refusal('not-found', 'There is no camera of this name.');
      return reply
        .type('application/pdf')
        .headers({
          'content-disposition': attachmentDisposition(`camera-sheet-${camera}.pdf`),
          // It holds a password.
          'cache-control': 'no-store',
        })
        .send(Buffer.from(pdf));
    },
  );
  app.get(
    '/api/v1/diary',
    {
      schema: {
        tags: ['station'],
        operationId: 'diary',
        summary: 'What happened on the line in the last 30 days, newest first',
        querystring: z.strictObject({
          camera: shortName
            .optional()
            .describe(
              'Lines of this camera, and the newest of clients that were not let in: a third of the page at most',
            ),
          before: z.string().max(40).optional().describe('`next` of an earlier page'),
          limit: z.coerce.number().int().min(1).max(500).default(100),
        }),
        response: {
          200: jsonAnswer('A page of the diary', diaryPage),
          ...problemAnswers('bad-value', 'operator-only'),
        },
      },
    },
    async (request) => {
      if (callerOf(request).scope !== 'operator')
        throw new Refusal('operator-only', 'The diary is for the operator.');
      return desk.diary(request.query);
    },
  );
  app.patch(
    '/api/v1/cameras/:camera',
    {
      schema: {
        tags: ['station'],
        operationId: 'patchCamera',
        summary:
          'Says what a camera is set to send, where it may come from and how, by which keys, or that it is not shooting now',
        params: z.object({ camera: shortName.describe('Name of the camera') }),
        body: cameraPatch,
        response: {
          200: jsonAnswer('The camera after the change', cameraEntry),
          ...problemAnswers(
            ...keyProblems,
            'bad-value',
            'everywhere-and-more',
            'bad-allow-rule',
            'too-many-keys',
            'no-key',
            'not-found',
            'not-json',
          ),
        },
      },
    },
    async (request) => {
      const camera = await desk.patchCamera(request.params.camera, request.body, callerOf(request));
      if (camera === null) throw new Refusal('not-found', 'There is no camera of this name.');
      return camera;
    },
  );
}
