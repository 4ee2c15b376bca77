import { z } from 'zod';

const share = z.number().min(0).max(1);

export const focusSpot = z
  .object({
    box: z
      .object({ left: share, top: share, right: share, bottom: share })
      .refine(({ left, top, right, bottom }) => left < right && top < bottom, 'a box without a size')
      .describe('Shares of the upright picture'),
    onward: z.boolean().describe('Also for the frames of its shot from this one on'),
  })
  .meta({ id: 'FocusSpot', description: 'Where a person said that it has to be sharp' });
