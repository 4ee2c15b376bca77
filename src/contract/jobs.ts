import { z } from 'zod';
import { judgements, questions, type ToleranceName, targetEditions, toleranceNames } from '../facts/index.ts';
import { finding, instant } from './primitives.ts';

/** Text as people write it: line ends are LF, so that a list goes out and comes back the same. */
const text = (charactersMax: number): z.ZodString =>
  z
    .string()
    .max(charactersMax)
    .overwrite((given) => given.replace(/\r\n?/g, '\n'));
const line = z.string().trim().max(120);
const name = z.string().trim().min(1).max(120);
const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .describe('A day, RFC 3339 full-date');
const frameId = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);
/** Not `id` of today's making only: earlier journals have others. */
const shotId = z.string().min(1).max(200);

const limits = z
  .object({ good: z.number().min(0), bad: z.number().min(0) })
  .strict()
  .describe('Up to `good` a reading is good, above `bad` it is bad, between them it is a doubt');

/** One optional field for each name; the names are those of facts. */
function toleranceFields(): Record<ToleranceName, z.ZodOptional<typeof limits>> {
  const fields = toleranceNames.map((each) => [each, limits.optional()] as const);
  // Built from the list of all names in the line above.
  return Object.fromEntries(fields) as Record<ToleranceName, z.ZodOptional<typeof limits>>;
}

export const tolerances = z
  .object(toleranceFields())
  .strict()
  .meta({ id: 'Tolerances', description: 'Limits by reading, each with its unit last in its name' });

const count = z.number().int().min(0).max(99);
const questionList = z.array(z.enum(questions)).max(questions.length);

const shotFields = {
  name,
  description: text(2000),
  camera: line.min(1).nullable().describe('Only frames of this camera go to the shot'),
  look: line.min(1).nullable(),
  layout: frameId.nullable().describe('Frame that holds the layout picture'),
  reference: frameId.nullable().describe('Frame that the shot is held against'),
  heroes: count.describe('Frames that have to be marked hero'),
  selects: count.describe('Frames that have to be marked select'),
  agreement: z.boolean().describe('Whether the client’s word is wanted'),
  requires: questionList.describe('Verdicts that must be good, or accepted'),
  mutes: questionList.describe('Verdicts that are not spoken of for this shot'),
  tolerances: tolerances.describe('Stand before the job’s, one by one'),
};

/** What is told is not bounded again: journals of earlier versions hold longer names. */
const toldOfShot = {
  name: z.string(),
  description: z.string(),
  camera: z.string().nullable().describe('Only frames of this camera go to the shot'),
  look: z.string().nullable(),
};

export const shot = z
  .object({
    id: z.string(),
    ...shotFields,
    ...toldOfShot,
    baselines: z
      .array(z.object({ frame: z.string(), from: instant }))
      .describe('From this moment on frames are held against that frame'),
  })
  .meta({ id: 'Shot', description: 'One line of the shot list' });

export const newShot = z
  .object(shotFields)
  .partial()
  .required({ name: true })
  .strict()
  .meta({ id: 'NewShot', description: 'A shot to be added at the end; what is left out is plain' });

export const shotPatch = z
  .object(shotFields)
  .partial()
  .strict()
  .meta({ id: 'ShotPatch', description: 'What a shot is to be from now on; what is left out stays' });

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
  .describe('`open`: frames go to it now, at most one is; `closed`: finished, unchanged until opened again');

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
  look: line.min(1).nullable().describe('The look of its frames where a shot has none of its own'),
  deliveries: z.array(name).max(20).describe('Names of delivery specifications'),
};

/** How colour is judged. */
const colour = {
  targetEdition: z
    .enum(targetEditions)
    .nullable()
    .describe('Which edition the 24-patch target on this set is; null: recognised where its colours tell'),
  toleranceSet: line
    .min(1)
    .nullable()
    .describe(
      'Name of a published set of limits for colour, in place of the limits for colour; null for none',
    ),
};

export const countedTarget = z
  .object({
    frame: z.string(),
    camera: z.string(),
    from: instant.describe('From this moment on frames of the camera are held against it'),
    profile: z
      .object({
        patches: z.number().int().describe('Patches it was made from'),
        fitDeltaE00: z.number().describe('Mean over the patches it was made from: flattering'),
        leaveOneOutDeltaE00: z.number().describe('Mean, each patch by a profile made without it'),
        leaveOneOutMaxDeltaE00: z.number(),
      })
      .nullable()
      .describe('The camera profile that was made from it; null where none could be'),
  })
  .meta({ id: 'CountedTarget', description: 'A frame whose 24-patch target counts for later ones' });

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
    currentShot: z.string().nullable().describe('The shot that frames go to as they come'),
    shots: z.array(shot).describe('In the order of the day'),
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

export const shotOrder = z
  .object({ shots: z.array(shotId).max(500) })
  .strict()
  .meta({ id: 'ShotOrder', description: 'Every listed shot once, in the order wanted' });

export const newBaseline = z
  .object({ frame: frameId })
  .strict()
  .meta({ id: 'NewBaseline', description: 'The frame that later ones of the shot are held against' });

export const newTarget = z
  .object({ frame: frameId })
  .strict()
  .meta({ id: 'NewTarget', description: 'The frame whose 24-patch target counts for later ones' });

/** Frames of one call: those of a long morning; more are several calls. */
const framesMax = 500;

export const framesToTakeIn = z
  .object({
    frames: z.array(frameId).min(1).max(framesMax),
    shot: shotId
      .nullable()
      .optional()
      .describe('A shot of the job; where it is left out they belong to none'),
  })
  .strict()
  .meta({
    id: 'FramesToTakeIn',
    description: 'Frames of the tray, or of another job, that belong to this one',
  });

export const framesTakenIn = z
  .object({ moved: z.number().int().describe('Frames that were not there already') })
  .meta({ id: 'FramesTakenIn', description: 'What taking frames in did' });

/** A list of shots as a file: what goes out comes in again. */
export const shotList = z
  .object({
    shots: z
      .array(
        z
          .object({ id: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/), ...shotFields })
          .partial()
          .required({ name: true })
          .strict(),
      )
      .max(500),
  })
  .strict()
  .meta({ id: 'ShotList', description: 'A shot list as JSON' });

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

export const newAcceptance = z
  .object({ name, reason: text(1000).refine((reason) => reason.trim() !== '', 'a reason is wanted') })
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
    what: finding,
  })
  .meta({ id: 'Act', description: 'What somebody chose in one go' });

export const actList = z
  .object({ acts: z.array(act) })
  .meta({ id: 'ActList', description: 'What can be taken back, the newest first' });

export const undo = z
  .object({ act: z.string().min(1).max(64).describe('Which one; the newest where it is left out') })
  .partial()
  .strict()
  .meta({ id: 'Undo', description: 'What is to be taken back' });

export type Job = z.infer<typeof job>;
export type Shot = z.infer<typeof shot>;
export type NewJob = z.infer<typeof newJob>;
export type JobPatch = z.infer<typeof jobPatch>;
export type NewShot = z.infer<typeof newShot>;
export type ShotPatch = z.infer<typeof shotPatch>;
export type ShotList = z.infer<typeof shotList>;
export type ImportReport = z.infer<typeof importReport>;
export type FramesToTakeIn = z.infer<typeof framesToTakeIn>;
export type NewAcceptance = z.infer<typeof newAcceptance>;
export type SeriesEntry = z.infer<typeof series>;
export type ActEntry = z.infer<typeof act>;
