import { z } from 'zod';
import { marks, purposes } from '../facts/index.ts';
import { actOfParts, frameId } from './fields.ts';
import { focusSpot } from './focus-spot.ts';
import { lookId } from './looks.ts';
import { frameShare } from './remarks.ts';

/** Frames of one call: those of a long morning; more are several calls, which may be one act. */
const markedMax = 500;

export const framesToMark = z
  .object({
    frames: z.array(frameId).min(1).max(markedMax),
    mark: z.enum(marks),
    seen: z
      .record(frameId, z.enum(marks))
      .refine((seen) => Object.keys(seen).length <= markedMax, `at most ${markedMax}`)
      .optional()
      .describe(
        'The mark that was seen of each frame, by its id: one that somebody has marked otherwise meanwhile is left as it is and named; the others are marked',
      ),
    act: actOfParts,
  })
  .strict()
  .meta({ id: 'FramesToMark', description: 'Frames that are marked alike, as one act' });

export const framesMarked = z
  .object({
    marked: z.number().int().describe('Frames that had another mark'),
    meanwhile: z
      .array(z.object({ frame: frameId, name: z.string(), mark: z.enum(marks) }))
      .describe(
        'Left as they are, since they are marked otherwise than was seen; with the mark they have now',
      ),
  })
  .meta({ id: 'FramesMarked', description: 'What marking many did' });

export const framePatch = z
  .object({
    mark: z.enum(marks),
    job: z.string().min(1).max(120).describe('Code of a job that exists, or "unsorted" for the tray'),
    shot: z
      .string()
      .min(1)
      .max(200)
      .nullable()
      .describe('A shot of its job, or of the job it is moved to; null for none'),
    purpose: z.enum(purposes),
    share: frameShare,
    spot: focusSpot.nullable().describe('Where it has to be sharp; null takes it back'),
    look: lookId.nullable().describe('Id of a saved version of a look; null for its shot’s or its job’s'),
    seen: z
      .object({ mark: z.enum(marks), shot: z.string().max(200).nullable() })
      .partial()
      .strict()
      .describe(
        'What was seen of what is changed: where somebody has changed that meanwhile, this is refused. `If-Match` refuses for anything new of the frame, be it a copy',
      ),
  })
  .partial()
  .strict()
  .meta({ id: 'FramePatch', description: 'What people choose of a frame; what is left out stays' });

export type FramesToMark = z.infer<typeof framesToMark>;

export type FramesMarked = z.infer<typeof framesMarked>;

export type FramePatch = z.infer<typeof framePatch>;
