import { z } from 'zod';
import { job } from '../../contract/index.ts';
import { sentence } from '../../words/index.ts';
import { bytesAnswer, jsonAnswer, problemAnswers, unchangedAnswer } from '../answers.ts';
import { strongTag } from '../core/entity-tag.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { ifMatchHeaders } from './if-match.ts';
import { jobAnswer, jobParams, patchBy } from './job-routes.ts';
import { codeOrId } from './path-values.ts';
import { pictureWidthMax, pictureWidthMin, sendTagged } from './picture-routes.ts';

/** A layout of 100 million pixels as TIFF with little compression, or any PNG: held in memory while it is looked at. */
export const layoutBytesMax: number = 128 * 1024 * 1024;

/** What a program calls pictures, right or wrong: the bytes decide what it is. */
const pictureBodies = /^(?:image\/|application\/(?:octet-stream|pdf))/;

const layoutParams = jobParams.extend({ shot: codeOrId.describe('Id of the shot') });

/** The layout picture of a shot: in, and out at any size. */
export function layoutRoutes(app: WebApp, desk: StationDesk): void {
  app.addContentTypeParser(pictureBodies, { parseAs: 'buffer' }, (_request, body, done) => done(null, body));
  app.put(
    '/api/v1/jobs/:job/shots/:shot/layout',
    {
      bodyLimit: layoutBytesMax,
      schema: {
        tags: ['jobs'],
        operationId: 'putLayout',
        summary: 'Keeps a layout picture and makes it the shot’s',
        description:
          'The body is the picture: PNG, JPEG, WebP or TIFF; its bytes decide, not its name. It is kept as what a camera ' +
          'sends is kept, in the job’s folder, and copied; an earlier layout stays kept. At most 20,000 pixels long and ' +
          '100 million in all.',
        params: layoutParams,
        headers: ifMatchHeaders,
        consumes: ['image/png', 'image/jpeg', 'image/webp', 'image/tiff', 'application/octet-stream'],
        response: {
          200: jsonAnswer('The job after the change', job),
          ...problemAnswers(
            'file-empty',
            'not-a-picture',
            'picture-is-raw',
            'picture-too-large',
            'picture-cannot-decode',
            'job-finished',
            'version-changed',
            'not-found',
            'too-large',
            'disk-full',
          ),
        },
      },
    },
    async (request, reply) => {
      const { job: code, shot } = request.params;
      const bytes = request.body instanceof Uint8Array ? request.body : new Uint8Array();
      return jobAnswer(reply, await desk.putLayout(code, shot, bytes, patchBy(request)));
    },
  );
  app.get(
    '/api/v1/jobs/:job/shots/:shot/layout',
    {
      schema: {
        tags: ['jobs'],
        operationId: 'getLayout',
        summary: 'The layout picture of a shot, upright, at about this width',
        params: layoutParams,
        querystring: z.strictObject({
          width: z.coerce.number().int().min(pictureWidthMin).max(pictureWidthMax).optional(),
          format: z.enum(['jpeg', 'webp', 'png']).default('jpeg'),
          v: z.string().max(64).optional().describe('Makes an address of its own, changes nothing else'),
        }),
        response: {
          200: bytesAnswer('The picture', 'image/jpeg', 'image/webp', 'image/png'),
          304: unchangedAnswer,
          ...problemAnswers('bad-value', 'no-picture', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { job: code, shot } = request.params;
      const { width, format } = request.query;
      const answer = await desk.layout(code, shot, { width, format });
      if (answer === null) throw new Refusal('not-found', 'There is no such job, or no such shot of it.');
      if (answer.kind === 'none') throw new Refusal('no-picture', sentence(answer.finding), answer.finding);
      return sendTagged(request, reply, strongTag(answer.etag), answer);
    },
  );
}
