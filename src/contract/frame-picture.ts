import { z } from 'zod';
import { finding, sha256Hex } from './primitives.ts';

const orientation = z.number().int().min(1).max(8);

/**
 * What can be shown of a frame now. Width and height are those of the upright picture at full size, so that the page
 * can lay out one box that does not change between first view and rendering.
 */
export const framePicture = z.discriminatedUnion('state', [
  z.object({ state: z.literal('none') }),
  z.object({
    state: z.literal('first-view'),
    width: z.number().int().positive(),
    height: z.number().int().positive(),
    orientation: orientation.describe('Exif orientation still to be applied to the first view'),
    previewWidth: z.number().int().positive(),
    previewHeight: z.number().int().positive(),
    arrivedShare: z
      .number()
      .min(0)
      .max(1)
      .nullable()
      .describe('Share of the file that had arrived when it was cut out'),
    version: z.number().int().describe('Rises when a larger preview replaces this one'),
  }),
  z.object({
    state: z.literal('rendered'),
    width: z.number().int().positive(),
    height: z.number().int().positive(),
    source: z
      .enum(['raw', 'raster'])
      .describe('Developed from the raw, or the camera’s own JPEG shown as it is'),
    look: z.string().describe('Hash of the look; empty where none was applied'),
    original: z
      .object({
        width: z.number().int().positive(),
        height: z.number().int().positive(),
        toOriginal: z
          .array(z.number())
          .length(9)
          .nullable()
          .default(null)
          .describe(
            'Takes a place of the picture shown to the same in the original, both as shares (x, y, 1) from the left top: a matrix in row order; divide by the third. null: noted before this was told',
          ),
      })
      .nullable()
      .default(null)
      .describe(
        'Of a look that cuts, turns or flips: the whole upright original at full size. What is read and pointed out lies in that one, width and height are those of the picture shown; null: they are the same',
      ),
    target: z
      .object({
        frame: z.string().describe('The frame with the 24-patch target'),
        name: z.string().describe('Its name as it was then'),
        profile: sha256Hex.describe('Hash of the balance and the matrix'),
      })
      .nullable()
      .default(null)
      .describe(
        'The target that it was balanced on, whose matrix stood in place of the camera’s; null: balanced as shot',
      ),
    version: z.number().int(),
  }),
  z.object({
    state: z.literal('cannot'),
    reason: finding,
    preview: z.boolean().describe('true where an embedded preview can be shown all the same (first-view)'),
    width: z.number().int().positive().nullable(),
    height: z.number().int().positive().nullable(),
    orientation: orientation.nullable(),
    version: z.number().int(),
  }),
]);

export type FramePicture = z.infer<typeof framePicture>;
