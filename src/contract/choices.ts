import { z } from 'zod';
import { judgements, questions } from '../facts/index.ts';
import { name, text } from './fields.ts';
import { finding, instant } from './primitives.ts';

export const newAcceptance = z
  .object({
    name,
    reason: text(1000).refine((reason) => reason.trim() !== '', 'a reason is wanted'),
    seen: z
      .enum(judgements)
      .optional()
      .describe('The verdict that was read: where it is another by now, this is refused'),
  })
  .strict()
  .meta({
    id: 'NewAcceptance',
    description: 'Who takes a verdict that is not good upon themselves, and why',
  });

export const acceptance = z
  .object({
    question: z.enum(questions),
    judgement: z.enum(judgements).describe('The verdict as it was then'),
    name: z.string(),
    reason: z.string(),
    at: instant,
    covers: z.boolean().describe('Whether it still covers the verdict: a worse one it does not'),
  })
  .meta({ id: 'Acceptance', description: 'A verdict that somebody took upon themselves' });

export const series = z
  .object({
    kind: z.enum(['burst', 'bracket']),
    camera: z.string(),
    frames: z.array(z.string()).describe('In the order of the shutter'),
    stepEv: z.number().nullable().describe('Of a bracket: from one exposure to the next'),
  })
  .meta({
    id: 'Series',
    description: 'Frames of one camera that belong together by their times and exposures',
  });

export const seriesList = z
  .object({ series: z.array(series) })
  .meta({ id: 'SeriesList', description: 'Bursts and brackets of a job' });

export const act = z
  .object({
    id: z.string(),
    at: instant,
    by: z.string(),
    screen: z
      .string()
      .nullable()
      .describe(
        'What the call said in its header `setside-screen`: a name that a page gave itself; null for none',
      ),
    what: finding,
  })
  .meta({ id: 'Act', description: 'What somebody chose in one go' });

export const toldAct = z
  .object({
    at: instant,
    by: z.string(),
    what: finding,
    takenBack: z
      .object({ at: instant, by: z.string() })
      .nullable()
      .describe('When it was taken back since the start, and by whom; null where it was not'),
  })
  .meta({
    id: 'ToldAct',
    description:
      'What somebody chose before this start, said by name, or chose and had taken back since: it is told, and not taken back from here',
  });

export const actList = z
  .object({
    acts: z.array(act),
    told: z
      .array(toldAct)
      .describe('The newest first. Choices that the journal holds without a name are not among them'),
  })
  .meta({ id: 'ActList', description: 'What can be taken back, the newest first, and who did what else' });

export const undo = z
  .object({ act: z.string().min(1).max(64).describe('Which one; the newest where it is left out') })
  .partial()
  .strict()
  .meta({ id: 'Undo', description: 'What is to be taken back' });

export type NewAcceptance = z.infer<typeof newAcceptance>;
export type SeriesEntry = z.infer<typeof series>;
export type ActEntry = z.infer<typeof act>;
export type ActList = z.infer<typeof actList>;
export type ToldAct = z.infer<typeof toldAct>;
