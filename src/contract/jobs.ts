import { z } from 'zod';
import { actOfParts, day, frameId, line, name, shotId, text } from './fields.ts';
import { agreement } from './remarks.ts';
import { chosenLookId, shot, tolerances } from './shots.ts';
import { colour, countedTarget } from './targets.ts';

const jobWords = {
  title: line,
  client: line,
  from: day.nullable().describe('First day'),
  to: day.nullable().describe('Last day'),
  place: line,
  notes: text(2000),
};

const jobState = z
  .enum(['waiting', 'open', 'closed'])
  .describe(
    '`open`: frames go to it now, at most one is; `closed`: finished, unchanged but for marks until taken up again',
  );

const greyCard = z
  .boolean()
  .describe('Whether a frame that a plain grey card fills says "next shot"; off where nobody has said');

/** How the job is handed over: kept as it was said, for the rooms that render and deliver. */
const handOver = {
  naming: z
    .string()
    .trim()
    .max(200)
    .describe(
      'Template of the names of delivered files, such as {job}_{shot}_{counter}; empty where nobody said',
    ),
  look: line.min(1).nullable().describe('Name of the look of its frames where a shot has none of its own'),
  lookId: chosenLookId,
  deliveries: z.array(name).max(20).describe('Names of delivery specifications'),
  metadata: z
    .string()
    .max(65_536)
    .describe(
      'What is written into its pictures when they are handed over: text of a document after docs/metadata.schema.json; empty where nobody said',
    ),
};

export const job = z
  .object({
    code: z.string(),
    title: z.string(),
    client: z.string(),
    from: z.string().nullable().describe('First day'),
    to: z.string().nullable().describe('Last day'),
    place: z.string(),
    notes: z.string(),
    state: jobState,
    tolerances,
    greyCard,
    ...handOver,
    ...colour,
    targets: z.array(countedTarget).describe('Frames whose target counts, oldest first'),
    agreements: z.array(agreement).describe('Who agreed to which shot, the oldest first'),
    currentShot: z.string().nullable().describe('The shot that frames go to as they come'),
    shots: z.array(shot).describe('In the order of the day'),
    takenAway: z
      .array(z.object({ id: z.string(), name: z.string() }))
      .describe('Shots that were taken from the list while they had frames; they can be brought back'),
    version: z.number().int().describe('Rises with every change of this job'),
  })
  .meta({ id: 'Job', description: 'A job with its shots' });

export const jobList = z
  .object({ jobs: z.array(job) })
  .meta({ id: 'JobList', description: 'Every job of this station, the newest opened first' });

export const newJob = z
  .object({
    code: z
      .string()
      .max(60)
      .describe('1 to 40 letters, digits, dots, hyphens and underscores; a folder’s name'),
    ...jobWords,
    tolerances,
    copyOf: z
      .string()
      .max(200)
      .describe('Code of an earlier job whose shots, limits, client and place it has'),
    open: z.boolean().describe('Whether frames go to it at once'),
  })
  .partial()
  .required({ code: true })
  .strict()
  .meta({ id: 'NewJob', description: 'A job to be made' });

export const jobPatch = z
  .object({
    ...jobWords,
    state: jobState,
    tolerances,
    greyCard,
    ...handOver,
    ...colour,
    currentShot: shotId.nullable(),
  })
  .partial()
  .strict()
  .meta({ id: 'JobPatch', description: 'What a job is to be from now on; what is left out stays' });

/** Frames of one call: those of a long morning; more are several calls, which may be one act. */
const framesMax = 500;

export const framesToTakeIn = z
  .object({
    frames: z.array(frameId).min(1).max(framesMax),
    shot: shotId
      .nullable()
      .optional()
      .describe('A shot of the job; where it is left out they belong to none'),
    act: actOfParts,
  })
  .strict()
  .meta({
    id: 'FramesToTakeIn',
    description: 'Frames of the tray, or of another job, that belong to this one',
  });

export const framesTakenIn = z
  .object({ moved: z.number().int().describe('Frames that were not there already') })
  .meta({ id: 'FramesTakenIn', description: 'What taking frames in did' });

export type Job = z.infer<typeof job>;
export type NewJob = z.infer<typeof newJob>;
export type JobPatch = z.infer<typeof jobPatch>;
export type FramesToTakeIn = z.infer<typeof framesToTakeIn>;
