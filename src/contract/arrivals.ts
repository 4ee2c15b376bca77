import { z } from 'zod';
import { instant } from './primitives.ts';

/** A file that broke off and waits in incoming/ until it is resumed, sent again, or let go by the operator. */
export const brokenArrival = z
  .object({
    id: z.string(),
    camera: z.string(),
    name: z.string(),
    frame: z.string().nullable().describe('Id of the frame it belongs to, where that is known'),
    size: z.number().int().nonnegative().describe('Bytes here so far'),
    expectedSize: z
      .number()
      .int()
      .nonnegative()
      .nullable()
      .describe('Bytes there should be; null where neither the structure nor ALLO says'),
    brokenOff: instant.describe(
      'When its last byte came; where the station died meanwhile, when it was found at the next start',
    ),
  })
  .meta({ id: 'BrokenArrival', description: 'A file that broke off on its way in and can be resumed' });

export const brokenArrivalList = z
  .object({ arrivals: z.array(brokenArrival) })
  .meta({ id: 'BrokenArrivalList', description: 'Files that broke off, oldest first' });

export type BrokenArrival = z.infer<typeof brokenArrival>;
