import { z } from 'zod';
import { sentence } from '../../words/index.ts';
import { bytesAnswer, problemAnswers, unchangedAnswer } from '../answers.ts';
import { callerGone } from '../caller-gone.ts';
import { strongTag } from '../core/entity-tag.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { id, pictureVersion } from './path-values.ts';
import { lookAsked, lookHashQuery, sendTagged } from './picture-routes.ts';

/** Edges of a region, pixels: four thousand are the largest screen at once and 50 MB while they are made. */
export const regionEdgeMin = 16;
export const regionEdgeMax = 4096;

/** Farther from the left or the top than any sensor in trade is wide. */
export const regionPlaceMax = 65_535;

/** Halvings, which pictures are reduced to cleanly and caches can share. */
export const regionScales: readonly number[] = [1, 0.5, 0.25, 0.125];

const place = z.coerce.number().int().min(0).max(regionPlaceMax);
const edge = z.coerce.number().int().min(regionEdgeMin).max(regionEdgeMax);

const regionQuery = z.strictObject({
  left: place.describe('Pixels of the upright picture at full size, from its left edge'),
  top: place.describe('The same from its top edge'),
  width: edge.describe('Pixels of the picture at full size; what lies outside it is left out'),
  height: edge,
  scale: z.coerce
    .number()
    .default(1)
    .refine((scale) => regionScales.includes(scale), `not one of ${regionScales.join(', ')}`)
    .describe('Pixels sent per pixel of the region: 1, 0.5, 0.25 or 0.125'),
  format: z.enum(['jpeg', 'webp', 'png']).default('jpeg'),
  look: lookHashQuery,
  v: pictureVersion,
});

export function regionRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames/:id/region',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getRegion',
        summary: 'A part of the picture at full size',
        description:
          'Made from the original; from the camera’s own JPEG or the largest preview while there is nothing better, ' +
          'which has fewer pixels than were asked for where it is coarser. The header `setside-source` says which: ' +
          '`raw`, `raster` or `preview`. `ETag` is the hash of content, look, region and scale. A caller that hangs ' +
          'up takes its wish back.',
        params: z.object({ id }),
        querystring: regionQuery,
        response: {
          200: bytesAnswer('The part of the picture', 'image/jpeg', 'image/webp', 'image/png'),
          304: unchangedAnswer,
          ...problemAnswers('region-outside', 'no-look', 'no-picture', 'busy'),
        },
      },
    },
    async (request, reply) => {
      const { left, top, width, height, scale, format } = request.query;
      const place = { leftPx: left, topPx: top, widthPx: width, heightPx: height };
      const query = { ...place, scale, format, look: lookAsked(request, request.query.look) };
      const signal = callerGone(reply);
      const answer = await unlessGone(desk.region(request.params.id, query, signal), signal);
      // There is nobody to answer.
      if (answer === 'gone') return reply.hijack();
      if (answer === null) throw new Refusal('not-found', 'There is no frame of this id.');
      if (answer.kind === 'none') throw new Refusal('no-picture', sentence(answer.finding), answer.finding);
      reply.header('setside-source', answer.source);
      return sendTagged(request, reply, strongTag(answer.etag), answer);
    },
  );
}

/** A wish that was taken back is no failure. */
export async function unlessGone<Answer>(
  asked: Promise<Answer>,
  signal: AbortSignal,
): Promise<Answer | 'gone'> {
  try {
    return await asked;
  } catch (thrown) {
    if (signal.aborted) return 'gone';
    throw thrown;
  }
}
