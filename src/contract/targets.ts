import { z } from 'zod';
import { targetEditions } from '../facts/index.ts';
import { frameId, line } from './fields.ts';
import { instant } from './primitives.ts';

/** How colour is judged. */
export const colour = {
  targetEdition: z
    .enum(targetEditions)
    .nullable()
    .describe('Which edition the 24-patch target on this set is; null: recognised where its colours tell'),
  toleranceSet: line
    .min(1)
    .nullable()
    .describe(
      'Name of a published set of limits for colour, in place of the limits for colour; null for none',
    ),
};

export const countedTarget = z
  .object({
    frame: z.string(),
    camera: z.string(),
    from: instant.describe('From this moment on frames of the camera are held against it'),
    profile: z
      .object({
        patches: z.number().int().describe('Patches it was made from'),
        fitDeltaE00: z.number().describe('Mean over the patches it was made from: flattering'),
        leaveOneOutDeltaE00: z.number().describe('Mean, each patch by a profile made without it'),
        leaveOneOutMaxDeltaE00: z.number(),
      })
      .nullable()
      .describe('The camera profile that was made from it; null where none could be'),
  })
  .meta({ id: 'CountedTarget', description: 'A frame whose 24-patch target counts for later ones' });

export const newTarget = z
  .object({ frame: frameId })
  .strict()
  .meta({ id: 'NewTarget', description: 'The frame whose 24-patch target counts for later ones' });
