import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { sentence } from '../../words/index.ts';
import { bytesAnswer, problemAnswers, unchangedAnswer } from '../answers.ts';
import { sendContent, sendNothing } from '../content.ts';
import { namesTag, strongTag } from '../core/entity-tag.ts';
import type { Content, StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';
import { id, pictureVersion } from './path-values.ts';

/**
 * Widths of renderings, pixels. Below 16 nothing can be seen; 16384 is more than any camera of today and the largest
 * WebP (RFC 9649 section 2.5: 14 bits).
 */
export const pictureWidthMin = 16;
export const pictureWidthMax = 16_384;

/** Operators compare versions; everybody else is shown the look in force, whatever is asked. */
export const lookHashQuery: z.ZodOptional<z.ZodString> = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .optional()
  .describe(
    'Hash of a look that is kept, or of the one in force, which is what is shown where it is left out. Only an operator’s is heeded',
  );

const pictureQuery = z.strictObject({
  width: z.coerce
    .number()
    .int()
    .min(pictureWidthMin)
    .max(pictureWidthMax)
    .optional()
    .describe(
      'About so wide, pixels. The rendering of a raw is half its size, that of a finished picture at most 4096 pixels long: a larger wish is answered with that. Parts at full size come from `region`',
    ),
  format: z.enum(['jpeg', 'webp', 'png']).default('jpeg'),
  look: lookHashQuery,
  v: pictureVersion,
});

const frameParams = z.object({ id });

export function pictureRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames/:id/first-view',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getFirstView',
        summary: 'The camera’s own preview, before the file has arrived',
        params: frameParams,
        querystring: z.strictObject({ v: pictureVersion }),
        response: {
          200: bytesAnswer('The preview', 'image/jpeg'),
          304: unchangedAnswer,
          ...problemAnswers('bad-value', 'no-picture'),
        },
      },
    },
    async (request, reply) => {
      const view = await desk.firstView(request.params.id);
      if (view === null) throw new Refusal('no-picture', 'There is no preview of this frame, or not yet.');
      // The version counts within one run: the run is part of the tag, or a restart could call old bytes new.
      const tag = strongTag(`${desk.events.run}.${request.params.id}.${view.version}`);
      return sendTagged(request, reply, tag, view);
    },
  );
  app.get(
    '/api/v1/frames/:id/picture',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getPicture',
        summary: 'The rendering; `ETag` is the hash of original, look and size',
        params: frameParams,
        querystring: pictureQuery,
        response: {
          200: bytesAnswer('The rendering', 'image/jpeg', 'image/webp', 'image/png'),
          304: unchangedAnswer,
          ...problemAnswers('bad-value', 'no-look', 'no-picture'),
        },
      },
    },
    async (request, reply) => {
      const { v: _, look, ...query } = request.query;
      const asked = lookAsked(request, look);
      const answer = await desk.picture(request.params.id, { ...query, look: asked });
      if (answer === null) throw new Refusal('not-found', 'There is no frame of this id.');
      if (answer.kind === 'none') throw new Refusal('no-picture', sentence(answer.finding), answer.finding);
      return sendTagged(request, reply, strongTag(answer.etag), answer);
    },
  );
}

/** The hash that is heeded of who asks. */
export function lookAsked(request: FastifyRequest, look: string | undefined): string | undefined {
  return callerOf(request).scope === 'operator' ? look : undefined;
}

/** Kept by the browser alone and asked for again each time: the tag decides, so a new rendering shows at once. */
export function sendTagged(
  request: FastifyRequest,
  reply: FastifyReply,
  tag: string,
  picture: { readonly content: Content; readonly contentType: string },
): Promise<FastifyReply> | FastifyReply {
  reply.headers({ etag: tag, 'cache-control': 'private, no-cache' });
  if (namesTag(request.headers['if-none-match'], tag)) return sendNothing(request, reply.code(304));
  return sendContent(request, reply.type(picture.contentType), picture.content);
}
