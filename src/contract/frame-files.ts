import { z } from 'zod';
import { arrivalStates } from '../facts/index.ts';
import { instant, sha256Hex } from './primitives.ts';

export const copyOfFile = z
  .object({
    folder: z.string().describe('The second place'),
    otherDevice: z
      .boolean()
      .describe('Only a copy on another device than the home, and not in memory, counts'),
    readBack: z
      .enum(['direct', 'cached'])
      .describe('direct: read back from the device itself; cached: the system may have answered from memory'),
    at: instant,
  })
  .meta({ id: 'CopyOfFile', description: 'A copy that was written, synced, read back and found the same' });

export const frameFile = z
  .object({
    name: z.string().describe('As the camera calls it now; a rename changes this, never the bytes on disk'),
    size: z.number().int().nonnegative().describe('Bytes here so far'),
    expectedSize: z
      .number()
      .int()
      .nonnegative()
      .nullable()
      .describe(
        'What the structure or ALLO announces, bytes; null where neither can say, as of a JPEG that was cut before its end',
      ),
    sha256: sha256Hex.nullable().describe('null while arriving'),
    state: z.enum(arrivalStates),
    copies: z.number().int().nonnegative().describe('Verified copies on another device'),
    places: z
      .array(copyOfFile)
      .describe('Every second place that holds it, those on the same device included'),
    bytesPerSecond: z
      .number()
      .nonnegative()
      .nullable()
      .describe('While arriving: measured over the last seconds'),
  })
  .meta({ id: 'FrameFile', description: 'One file of a frame' });

export type FrameFile = z.infer<typeof frameFile>;
