import { z } from 'zod';
import { finding } from './primitives.ts';

export const putBackWish = z
  .object({
    originals: z
      .array(z.string().min(1).max(4096))
      .min(1)
      .max(1000)
      .optional()
      .describe(
        'Paths below the home, or names of files; left out: every original known not to be as received',
      ),
  })
  .strict()
  .meta({ id: 'PutBackWish', description: 'Which originals are put back from a second place' });

export const putBackAnswer = z
  .object({
    originals: z.array(
      z.object({
        frame: z.string(),
        original: z.string().describe('Below the home'),
        outcome: z
          .enum(['put-back', 'as-received', 'no-copy', 'failed'])
          .describe('`as-received`: nothing was wrong'),
        folder: z.string().nullable().describe('The second place it came from'),
        aside: z
          .string()
          .nullable()
          .describe('Below the home: where what lay under its name was moved, never deleted'),
        findings: z.array(finding),
      }),
    ),
  })
  .meta({ id: 'PutBack', description: 'What became of originals that were to be put back' });

export type PutBackAnswer = z.infer<typeof putBackAnswer>;
