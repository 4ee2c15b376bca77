import { z } from 'zod';

/** Text as people write it: line ends are LF, so that a list goes out and comes back the same. */
export const text = (charactersMax: number): z.ZodString =>
  z
    .string()
    .max(charactersMax)
    .overwrite((given) => given.replace(/\r\n?/g, '\n'));
export const line: z.ZodString = z.string().trim().max(120);
export const name: z.ZodString = z.string().trim().min(1).max(120);
export const day: z.ZodString = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .describe('A day, RFC 3339 full-date');
export const frameId: z.ZodString = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);
/** Not `id` of today's making only: earlier journals have others. */
export const shotId: z.ZodString = z.string().min(1).max(200);

export const actOfParts: z.ZodOptional<z.ZodString> = z
  .string()
  .min(8)
  .max(64)
  .optional()
  .describe(
    'Made up by the caller: calls with the same one are one act, which is taken back in one go; once it was taken back no more are taken',
  );
