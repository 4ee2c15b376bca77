import { z } from 'zod';
import { questions, scaleTellers, type ToleranceName, toleranceNames } from '../facts/index.ts';
import { frameId, line, name, shotId, text } from './fields.ts';
import { lookId } from './looks.ts';
import { instant } from './primitives.ts';

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

/** What is named beside a look's name. */
export const chosenLookId: z.ZodNullable<z.ZodString> = lookId
  .nullable()
  .describe(
    'Id of the saved version that was chosen; null where none of that name is kept, so that the name is a wish. Where only `look` is said, it is the newest version of that name',
  );

const count = z.number().int().min(0).max(99);
const questionList = z.array(z.enum(questions)).max(questions.length);

export const shotFields = {
  name,
  description: text(2000),
  camera: line.min(1).nullable().describe('Only frames of this camera go to the shot'),
  look: line.min(1).nullable().describe('Name of its look; null for the job’s'),
  lookId: chosenLookId,
  layout: frameId.nullable().describe('Frame that holds the layout picture'),
  reference: frameId.nullable().describe('Frame that the shot is held against'),
  heroes: count.describe('Frames that have to be marked hero'),
  selects: count.describe('Frames that have to be marked select'),
  agreement: z.boolean().describe('Whether the client’s word is wanted'),
  requires: questionList.describe('Verdicts that must be good, or accepted'),
  mutes: questionList.describe('Verdicts that are not spoken of for this shot'),
  tolerances: tolerances.describe('Stand before the job’s, one by one'),
  order: z
    .array(frameId)
    .max(500)
    .describe(
      'Its chosen frames in the order somebody gave them; the others stand behind, as they were taken',
    ),
};

/** What is told is not bounded again: journals of earlier versions hold longer names, and frames that are none. */
const toldOfShot = {
  name: z.string(),
  description: z.string(),
  camera: z.string().nullable().describe('Only frames of this camera go to the shot'),
  look: z.string().nullable(),
  layout: z.string().nullable().describe('Frame that holds the layout picture'),
  reference: z.string().nullable().describe('Frame that the shot is held against'),
};

export const shot = z
  .object({
    id: z.string(),
    ...shotFields,
    ...toldOfShot,
    scale: z
      .object({
        frame: z.string().describe('The frame it was told on'),
        camera: z.string().describe('For another camera, or at another focal length, it says nothing'),
        toldBy: z.enum(scaleTellers).describe('A target in it, or two points'),
        mm: z.number().describe('A length on the set'),
        px: z.number().describe('How long it is in that frame at full size'),
        mmPerPx: z.number(),
      })
      .nullable()
      .describe('How large things are in its pictures; null where nobody told it'),
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

export const shotOrder = z
  .object({ shots: z.array(shotId).max(500) })
  .strict()
  .meta({ id: 'ShotOrder', description: 'Every listed shot once, in the order wanted' });

export const newBaseline = z
  .object({ frame: frameId })
  .strict()
  .meta({ id: 'NewBaseline', description: 'The frame that later ones of the shot are held against' });

const point = z.object({ x: z.number().min(0).max(1), y: z.number().min(0).max(1) }).strict();

export const newScale = z
  .object({
    frame: frameId,
    mm: z
      .number()
      .positive()
      .max(100_000)
      .describe(
        'Between the points; of a target from the first to the sixth patch of a row, edge to same edge',
      ),
    points: z
      .tuple([point, point])
      .optional()
      .describe(
        'Two points of the upright frame, shares of it; where they are left out, the target in it is meant',
      ),
  })
  .strict()
  .meta({ id: 'NewScale', description: 'How large things are in the pictures of a shot' });

export type NewScale = z.infer<typeof newScale>;
export type Shot = z.infer<typeof shot>;
export type NewShot = z.infer<typeof newShot>;
export type ShotPatch = z.infer<typeof shotPatch>;
