import { z } from 'zod';

/** RFC 3339 in UTC with milliseconds. */
export const instant: z.ZodString = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/)
  .describe('RFC 3339 time in UTC with milliseconds');

/** SHA-256 as 64 lower-case hexadecimal digits (FIPS 180-4). */
export const sha256Hex: z.ZodString = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .describe('SHA-256, hexadecimal');

export const finding = z
  .object({
    code: z.string(),
    args: z.record(z.string(), z.union([z.string(), z.number()])),
  })
  .meta({
    id: 'Finding',
    description: 'What the station has to say, as a code with its figures; the room words makes the sentence',
  });
