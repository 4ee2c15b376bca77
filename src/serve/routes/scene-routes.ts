import { z } from 'zod';
import { sentence } from '../../words/index.ts';
import { bytesAnswer, problemAnswers, unchangedAnswer } from '../answers.ts';
import { callerGone } from '../caller-gone.ts';
import { strongTag } from '../core/entity-tag.ts';
import type { SceneQuery, StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import type { WebApp } from '../web-app.ts';
import { id, pictureVersion } from './path-values.ts';
import { sendTagged } from './picture-routes.ts';
import { unlessGone } from './region-routes.ts';

/** Six bytes a pixel: 17 MB at most for the usual shape. Closer looks come in tiles. */
export const sceneWidthMin = 16;
export const sceneWidthMax = 2048;

/** Edge of a tile, pixels of the upright picture at full size. */
export const sceneTilePx = 512;

const sceneQuery = z.strictObject({
  width: z.coerce
    .number()
    .int()
    .min(sceneWidthMin)
    .max(sceneWidthMax)
    .default(sceneWidthMax)
    .describe('The whole picture, about so wide, pixels; never enlarged'),
  tile: z
    .string()
    .regex(/^\d{1,3},\d{1,3}$/)
    .optional()
    .describe(
      `In place of the whole: a tile of ${sceneTilePx} pixels, pixel for pixel, by its column and row from the left top`,
    ),
  v: pictureVersion,
});

export function sceneRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/frames/:id/scene',
    {
      schema: {
        tags: ['frames'],
        operationId: 'getScene',
        summary: 'The light that a look is applied to',
        description:
          'OpenEXR, not compressed, half floats: scene-linear Rec. 2020, 1 = white diffuse surface, balanced as the station ' +
          'balances the frame; nothing is cut on either side. The attribute `light` says `raw`, or `raster` for a picture ' +
          'that its camera finished, whose light is what its sRGB shows; `asShotX` and `asShotY` the chromaticity of the ' +
          'white as shot, where it is known; `balancedOn` what it was balanced on, `as-shot` or `target`; `fullWidth` and ' +
          '`fullHeight` the size of the picture. A tile has its place in the data window. ' +
          'Reduced pictures are averaged in scene light. `ETag` is the hash of content, balance and size.',
        params: z.object({ id }),
        querystring: sceneQuery,
        response: {
          200: bytesAnswer('The light', 'image/x-exr'),
          304: unchangedAnswer,
          ...problemAnswers('region-outside', 'no-picture', 'busy'),
        },
      },
    },
    async (request, reply) => {
      const signal = callerGone(reply);
      const asked = desk.scene(request.params.id, sceneOf(request.query), signal);
      const answer = await unlessGone(asked, signal);
      // There is nobody to answer.
      if (answer === 'gone') return reply.hijack();
      if (answer === null) throw new Refusal('not-found', 'There is no frame of this id.');
      if (answer.kind === 'none') throw new Refusal('no-picture', sentence(answer.finding), answer.finding);
      return sendTagged(request, reply, strongTag(answer.etag), answer);
    },
  );
}

function sceneOf({ width, tile }: z.output<typeof sceneQuery>): SceneQuery {
  if (tile === undefined) return { kind: 'whole', widthPx: width };
  const [column = 0, row = 0] = tile.split(',').map(Number);
  return { kind: 'tile', edgePx: sceneTilePx, column, row };
}
