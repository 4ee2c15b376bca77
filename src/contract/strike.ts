import { z } from 'zod';
import { agreements, judgements, questions, strikeCosts } from '../facts/index.ts';
import { name, text } from './fields.ts';
import { finding, instant, sha256Hex } from './primitives.ts';

const byName = z.object({ name: z.string(), reason: z.string() });
const counting = {
  camera: z.string().describe('The log-in'),
  prefix: z
    .string()
    .describe(
      'What tells two cameras of one log-in apart: of the four characters before the number the last two',
    ),
};

export const strikeLine = z
  .object({
    key: z.string().describe('The same as long as the line says the same'),
    cost: z.enum(strikeCosts).describe('What striking all the same would cost'),
    finding,
    because: finding.nullable().describe('The verdict’s own reason'),
    shot: z.string().nullable(),
    frame: z.string().nullable().describe('Where it is mended'),
    question: z.enum(questions).nullable().describe('The verdict that may be accepted on that frame'),
    counting: z.object(counting).nullable().describe('Whose numbers it is about'),
    explainable: z
      .boolean()
      .describe('Whether somebody may take the line upon themselves, by name and with a reason'),
    accepted: byName.nullable(),
  })
  .meta({
    id: 'StrikeLine',
    description: 'A condition that is not met, or that somebody took upon themselves',
  });

export const strikeShot = z
  .object({
    id: z.string(),
    name: z.string(),
    heroesWanted: z.number().int(),
    selectsWanted: z.number().int(),
    chosen: z
      .array(
        z.object({
          id: z.string(),
          name: z.string(),
          mark: z.enum(['hero', 'select']),
          verdicts: z.array(
            z.object({
              question: z.enum(questions),
              judgement: z.enum(judgements),
              accepted: byName.nullable(),
            }),
          ),
          target: z.string().nullable().describe('The frame whose 24-patch target counts for it'),
        }),
      )
      .describe('Its heroes, and its selects where it asks for any, with the verdicts it asks for'),
    agreement: z.enum(agreements).nullable().describe('The client’s word; null where nobody asks for it'),
    open: z.number().int().describe('Lines about it that are open'),
  })
  .meta({ id: 'StrikeShot', description: 'A shot of the strike check' });

export const strikeCamera = z
  .object({
    ...counting,
    frames: z.number().int(),
    newest: z
      .object({ name: z.string(), counter: z.number().int() })
      .nullable()
      .describe('The newest frame with a number; null where no name holds one'),
    said: z
      .object({
        counter: z.number().int(),
        by: z.string().describe('Empty for `card`'),
        how: z
          .enum(['read-off', 'card'])
          .describe('Read off the camera by somebody; or found on a card of which every file is here twice'),
        at: instant,
      })
      .nullable()
      .describe('The last number that the camera gave'),
  })
  .meta({ id: 'StrikeCamera', description: 'What counts frames of the job' });

export const strike = z
  .object({
    job: z.string(),
    title: z.string(),
    client: z.string(),
    at: instant.describe('When it was checked'),
    ready: z
      .boolean()
      .describe('No line is open. It says what was verified; whether a card may be wiped a card check says'),
    open: z.array(strikeLine).describe('Worst first'),
    accepted: z.array(strikeLine),
    shots: z.array(strikeShot).describe('In the order of the day'),
    cameras: z.array(strikeCamera),
    frames: z.number().int(),
    state: sha256Hex.describe('Of what it says: to be sent along with a signature'),
    signed: z
      .object({
        name: z.string(),
        at: instant,
        stands: z.boolean().describe('false: something changed since, and the check is open again'),
      })
      .nullable(),
    version: z.number().int().describe('Of the job, for `If-Match`'),
  })
  .meta({ id: 'Strike', description: 'May the set come down' });

export const strikeNumber = z
  .object({
    counter: z
      .number()
      .int()
      .min(1)
      .max(9999)
      .describe('The number of the last frame as the camera shows it'),
    prefix: z.string().max(4).optional().describe('May be left out where one camera uses the log-in'),
  })
  .strict()
  .meta({ id: 'StrikeNumber', description: 'A camera’s own last number' });

export const strikeExplained = z
  .object({
    line: z.string().min(1).max(400).describe('Its `key`'),
    name,
    reason: text(1000).refine((reason) => reason.trim() !== '', 'a reason is wanted'),
  })
  .strict()
  .meta({ id: 'StrikeExplained', description: 'Who takes a line upon themselves, and why' });

export const strikeSignature = z
  .object({ name, state: sha256Hex.describe('`state` of the check that was seen') })
  .strict()
  .meta({ id: 'StrikeSignature', description: 'Somebody says that the set may come down' });

export type Strike = z.infer<typeof strike>;
export type StrikeLine = z.infer<typeof strikeLine>;
export type StrikeShot = z.infer<typeof strikeShot>;
export type StrikeCamera = z.infer<typeof strikeCamera>;
export type StrikeNumber = z.infer<typeof strikeNumber>;
export type StrikeExplained = z.infer<typeof strikeExplained>;
export type StrikeSignature = z.infer<typeof strikeSignature>;
