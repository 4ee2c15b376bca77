import { z } from 'zod';
import { sentence } from '../../words/index.ts';
import { bytesAnswer, problemAnswers } from '../answers.ts';
import { callerGone } from '../caller-gone.ts';
import { lookBytesMax } from '../core/look-in-body.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { lookBody, lookOrRefuse } from './look-routes.ts';
import { id } from './path-values.ts';
import { pictureWidthMin } from './picture-routes.ts';

/** A try is looked at on a screen: no larger than the largest of them. Parts at full size are for what is saved. */
export const tryWidthMax = 4096;

const tryQuery = z.strictObject({
  width: z.coerce
    .number()
    .int()
    .min(pictureWidthMin)
    .max(tryWidthMax)
    .optional()
    .describe('About so wide, pixels; at most half the original’s size is answered'),
  page: z
    .string()
    .regex(/^[A-Za-z0-9_-]{1,64}$/)
    .optional()
    .describe(
      'Who tries, of the caller’s own making: a newer try of the same page takes the place of an earlier one',
    ),
});

/** A frame under a look that nobody has saved. */
export function tryRoutes(app: WebApp, desk: StationDesk): void {
  app.post(
    '/api/v1/frames/:id/try',
    {
      bodyLimit: lookBytesMax,
      schema: {
        tags: ['looks'],
        operationId: 'tryLook',
        summary: 'The rendering of a frame under a look that is not saved',
        description:
          'As it would be delivered, local parts and all. Nothing is kept. One try of a page is made at a time and one more ' +
          'waits: the newest; the one whose place it takes is answered 409. The header `setside-look` is the hash of the look.',
        params: z.object({ id }),
        querystring: tryQuery,
        body: lookBody,
        response: {
          200: bytesAnswer('The rendering', 'image/jpeg'),
          ...problemAnswers(
            'bad-value',
            'bad-look',
            'no-look',
            'no-picture',
            'try-overtaken',
            'busy',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const { width, page } = request.query;
      const document = lookOrRefuse(request.body);
      const signal = callerGone(reply);
      const { name, link } = callerOf(request);
      const wish = { document, width, page: `${link ?? ''} ${page ?? name}` };
      try {
        const answer = await desk.tryLook(request.params.id, wish, signal);
        if (answer === null) throw new Refusal('not-found', 'There is no frame of this id.');
        if (answer.kind === 'none') throw new Refusal('no-picture', sentence(answer.finding), answer.finding);
        reply.headers({ 'cache-control': 'no-store', 'setside-look': answer.hash });
        return reply.type('image/jpeg').send(answer.jpeg);
      } catch (thrown) {
        // There is nobody to answer.
        if (signal.aborted) return reply.hijack();
        throw thrown;
      }
    },
  );
}
