import { z } from 'zod';
import { lookSchema } from '../look/index.ts';
import { frameId, shotId } from './fields.ts';
import { instant, sha256Hex } from './primitives.ts';

/** Ids of saved versions, as the station gave them out. */
export const lookId: z.ZodString = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);

/** Frames of one call, as of `framesToTakeIn`. */
const framesMax = 500;
const shotsMax = 500;

export const look = z
  .object({
    id: lookId.describe('Names this version, for good'),
    name: z.string(),
    version: z
      .number()
      .int()
      .positive()
      .describe('1, 2, 3 … among those of one name, written large or small'),
    hash: sha256Hex.describe(
      'Of what changes a pixel (RFC 8785, SHA-256); two versions that differ by their descriptions have the same',
    ),
    savedAt: instant,
    savedBy: z.string(),
    document: lookSchema.describe('The whole look, see docs/look.schema.json'),
    laidAside: z.boolean().describe('No longer offered; whatever it was chosen for keeps it'),
  })
  .meta({ id: 'Look', description: 'A saved version of a look; it never changes' });

export const lookList = z.object({ looks: z.array(look) }).meta({
  id: 'LookList',
  description:
    'Of each name the newest version that is not laid aside, or the newest where all are; or every version',
});

export const lookWithVersions = look
  .extend({ versions: z.array(look).describe('Every version of its name, the newest first') })
  .meta({ id: 'LookWithVersions', description: 'A saved version, and those of the same name' });

export const lookUse = z
  .object({
    job: z.string().min(1).max(200).describe('Code of a job'),
    shots: z
      .array(shotId)
      .min(1)
      .max(shotsMax)
      .describe('Shots of that job; the job’s own look stays as it is then, unless `whole` is said'),
    whole: z.literal(true).describe('The job’s own look too, beside those of its shots'),
    frames: z.array(frameId).min(1).max(framesMax).describe('Single frames, of whichever job'),
  })
  .partial()
  .strict()
  .refine(({ job, frames }) => job !== undefined || frames !== undefined, 'a job or frames are wanted')
  .refine(({ job, shots }) => shots === undefined || job !== undefined, 'shots belong to a job: name it')
  .refine(({ job, whole }) => whole === undefined || job !== undefined, '`whole` is of a job: name it')
  .meta({ id: 'LookUse', description: 'What a saved version is to be the look of, all in one go' });

export const lookUsed = z
  .object({ changed: z.number().int().describe('Jobs, shots and frames that had another look before') })
  .meta({ id: 'LookUsed', description: 'What using a look did' });

/** The look that a frame is shown with now. */
export const frameLook = z
  .object({
    own: z.string().nullable().describe('Id of the saved version chosen for this frame alone'),
    id: z.string().nullable().describe('Id of the saved version in force; null: the station’s plain look'),
    name: z.string(),
    version: z.number().int().nullable(),
    hash: z.string().describe('As `picture.look` is, once the frame is rendered with it'),
    from: z.enum(['frame', 'shot', 'job', 'station']).describe('Who named it'),
    wish: z
      .string()
      .nullable()
      .describe(
        'Name of a look that was asked for and is not kept: the plain one is shown until it is saved',
      ),
  })
  .meta({ id: 'FrameLook', description: 'The look in force for a frame; a finished picture takes none' });

export type Look = z.infer<typeof look>;
export type LookUse = z.infer<typeof lookUse>;
export type LookWithVersions = z.infer<typeof lookWithVersions>;
