import { z } from 'zod';
import { job } from './jobs.ts';
import { finding } from './primitives.ts';
import { shotFields } from './shots.ts';

/** One shot of a list that comes as JSON; what is left out stays, or is plain. */
export const listedShot = z
  .object({ id: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/), ...shotFields })
  // A version belongs to the station that keeps it; a list names looks.
  .omit({ lookId: true })
  .partial()
  .required({ name: true })
  .strict();

export const importReport = z
  .object({
    preview: z.boolean().describe('Whether nothing was changed'),
    encoding: z.string().nullable().describe('How a CSV was read; null for JSON'),
    guessed: z.boolean().describe('The encoding was a guess: look at the letters with accents'),
    columns: z.array(z.string()).describe('Columns that were found'),
    unknownColumns: z.array(z.string()).describe('Columns that say nothing to us'),
    lines: z.array(
      z.object({
        line: z.number().int(),
        id: z.string(),
        name: z.string(),
        what: z.enum(['added', 'changed', 'same']),
        changes: z
          .array(z.object({ field: z.string(), from: z.string(), to: z.string() }))
          .describe('Of a shot that is there already: columns that change, as their cells have them'),
      }),
    ),
    reorders: z.boolean().describe('Shots that are there already come into the order of the list'),
    bad: z.array(z.object({ line: z.number().int(), finding })).describe('Lines that are left out, and why'),
    badLines: z.number().int().describe('Such lines in all; the first hundred are named'),
    findings: z.array(finding).describe('What is to be said of the whole file'),
    job,
  })
  .meta({ id: 'ImportReport', description: 'What taking in a shot list does, or did' });

export type ListedShot = z.infer<typeof listedShot>;
export type ImportReport = z.infer<typeof importReport>;
