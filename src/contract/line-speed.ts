import { z } from 'zod';
import { finding, instant } from './primitives.ts';

const sized = z.object({
  bytes: z.number().positive(),
  measured: z.boolean().describe('The median of what the camera sent; false where it is assumed'),
  seconds: z.number().nonnegative().describe('What that takes at the measured speed'),
});

export const lineSpeed = z
  .object({
    files: z.number().int().positive().describe('The newest files of half a megabyte or more, 40 at most'),
    since: instant.describe('When the first of them began'),
    bytesPerSecond: z.number().positive().describe('From first to last byte, the median of the files'),
    slowest: z.number().positive(),
    fastest: z.number().positive(),
    busy: z
      .number()
      .min(0)
      .max(1)
      .describe('Share of the time from the first of these files to the last in which one was on its way'),
    raw: sized,
    jpeg: sized.describe('The camera’s JPEG, or a small one beside the raw where it sends none'),
    firstViewSeconds: z
      .number()
      .nullable()
      .describe('From the first byte of a raw to the preview in it, the median; null where none was seen'),
    cableSeconds: z
      .number()
      .describe('What the raw would take at half of gigabit Ethernet, which is assumed'),
    finding: finding.describe('The same for a sentence: line-speed.measured'),
  })
  .meta({ id: 'LineSpeed', description: 'What the speed of a camera’s line means, and how that is known' });

export type LineSpeed = z.infer<typeof lineSpeed>;
