import { z } from 'zod';
import { agreements, judgements } from '../facts/index.ts';
import { finding, instant } from './primitives.ts';
import { strikeCamera, strikeLine } from './strike.ts';

const limit = z.object({ good: z.number(), bad: z.number() });
const counted = z.object({ there: z.number().int(), wanted: z.number().int() });
const shot = z.string().nullable().describe('Name of its shot');
const seconds = z.number().nullable();

const reportShot = z.object({
  name: z.string(),
  pictures: z.number().int().describe('That are not marked out'),
  heroes: counted,
  selects: counted,
  agreement: z.enum(agreements).nullable().describe('Null where nobody asks for it'),
  open: z.number().int().describe('Lines of the strike check about it that are open'),
  accepted: z.number().int().describe('Those that somebody took upon themselves'),
});

const timeStep = z.object({
  step: z.enum(['shutter-view', 'shutter-rendering', 'byte-view', 'byte-rendering']),
  seconds: z.array(z.number()).describe('One for each frame of which it is known, the shortest first'),
  p50S: seconds.describe('Null where there are too few frames to tell'),
  p90S: seconds,
  p99S: seconds,
  maxS: seconds,
});

const reportTarget = z.object({
  name: z.string(),
  shot,
  at: instant,
  meanDeltaE00: z.number().nullable().describe('CIEDE2000 over the patches, developed without a look'),
  maxDeltaE00: z.number().nullable(),
  deliveredMeanDeltaE00: z.number().nullable().describe('As it is delivered; null where no target counts'),
  meanLimit: limit,
  maxLimit: limit,
  judgement: z.enum(judgements),
});

const lightPoint = z.object({
  name: z.string(),
  shot,
  at: instant,
  ev: z.number().describe('Against the reference of its shot'),
  judgement: z.enum(judgements),
});

export const jobReport = z
  .object({
    job: z.string(),
    title: z.string(),
    client: z.string(),
    at: instant.describe('When it was written'),
    shots: z.array(reportShot).describe('In the order of the day'),
    frames: z.number().int().describe('That lie in the job, those marked out too'),
    shotless: z.number().int().describe('Of those, frames of no shot of the list'),
    times: z.object({
      steps: z
        .array(timeStep)
        .describe('How long people waited; only what came by a camera’s own upload counts'),
      doubts: z
        .array(finding)
        .describe('How far the shutter’s moment is to be believed, and what was left out'),
    }),
    colour: z.array(reportTarget).describe('Targets that were photographed'),
    light: z.object({
      limit,
      points: z.array(lightPoint),
      unknown: z.number().int().describe('Pictures of which it is not known'),
    }),
    numbers: z.object({
      missing: z.number().int().describe('Known to be missing, those that somebody explained too'),
      lines: z.array(strikeLine),
      cameras: z.array(strikeCamera),
    }),
    copies: z.object({
      secondPlaces: z.number().int(),
      files: z.number().int().describe('Here whole, or as whole as anybody can tell'),
      twice: z.number().int().describe('Of those, with a copy on another device that was read back'),
      direct: z.number().int().describe('Of those, read back from the device itself and not from memory'),
      notWhole: z.number().int(),
    }),
    ready: z.boolean(),
    open: z.array(strikeLine).describe('Worst first'),
    accepted: z.array(strikeLine),
    signed: z.object({ name: z.string(), at: instant, stands: z.boolean() }).nullable(),
  })
  .meta({
    id: 'JobReport',
    description:
      'How a job went: what the page of `report.pdf` shows. What nothing is known of is null or empty',
  });

export type JobReport = z.infer<typeof jobReport>;
