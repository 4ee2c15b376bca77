import { z } from 'zod';
import { arrivalStates, marks, purposes, questions, shotlessReasons } from '../facts/index.ts';
import { acceptance } from './choices.ts';
import { actOfParts, frameId } from './fields.ts';
import { frameLook, lookId } from './looks.ts';
import { finding, instant, sha256Hex } from './primitives.ts';
import { frameShare, remark } from './remarks.ts';

const orientation = z.number().int().min(1).max(8);

export const copyOfFile = z
  .object({
    folder: z.string().describe('The second place'),
    otherDevice: z
      .boolean()
      .describe('Only a copy on another device than the home, and not in memory, counts'),
    readBack: z
      .enum(['direct', 'cached'])
      .describe('direct: read back from the device itself; cached: the system may have answered from memory'),
    at: instant,
  })
  .meta({ id: 'CopyOfFile', description: 'A copy that was written, synced, read back and found the same' });

export const frameFile = z
  .object({
    name: z.string().describe('As the camera calls it now; a rename changes this, never the bytes on disk'),
    size: z.number().int().nonnegative().describe('Bytes here so far'),
    expectedSize: z
      .number()
      .int()
      .nonnegative()
      .nullable()
      .describe(
        'What the structure or ALLO announces, bytes; null where neither can say, as of a JPEG that was cut before its end',
      ),
    sha256: sha256Hex.nullable().describe('null while arriving'),
    state: z.enum(arrivalStates),
    copies: z.number().int().nonnegative().describe('Verified copies on another device'),
    places: z
      .array(copyOfFile)
      .describe('Every second place that holds it, those on the same device included'),
    bytesPerSecond: z
      .number()
      .nonnegative()
      .nullable()
      .describe('While arriving: measured over the last seconds'),
  })
  .meta({ id: 'FrameFile', description: 'One file of a frame' });

export const frameTimes = z
  .object({
    shutter: instant.nullable(),
    began: instant
      .nullable()
      .describe(
        'When its first file was announced. A file that is sent again, or that broke off without a byte, changes nothing of it; so a frame without a believable shutter has its place in the day by this',
      ),
    firstByte: instant.nullable(),
    firstView: instant.nullable(),
    lastByte: instant.nullable(),
    kept: instant.nullable(),
    rendered: instant.nullable(),
    judged: instant.nullable(),
  })
  .meta({ id: 'FrameTimes', description: 'When what happened to a frame, in the order it happens' });

/**
 * What can be shown of a frame now. Width and height are those of the upright picture at full size, so that the page
 * can lay out one box that does not change between first view and rendering.
 */
export const framePicture = z.discriminatedUnion('state', [
  z.object({ state: z.literal('none') }),
  z.object({
    state: z.literal('first-view'),
    width: z.number().int().positive(),
    height: z.number().int().positive(),
    orientation: orientation.describe('Exif orientation still to be applied to the first view'),
    previewWidth: z.number().int().positive(),
    previewHeight: z.number().int().positive(),
    arrivedShare: z
      .number()
      .min(0)
      .max(1)
      .nullable()
      .describe('Share of the file that had arrived when it was cut out'),
    version: z.number().int().describe('Rises when a larger preview replaces this one'),
  }),
  z.object({
    state: z.literal('rendered'),
    width: z.number().int().positive(),
    height: z.number().int().positive(),
    source: z
      .enum(['raw', 'raster'])
      .describe('Developed from the raw, or the camera’s own JPEG shown as it is'),
    look: z.string().describe('Hash of the look; empty where none was applied'),
    original: z
      .object({
        width: z.number().int().positive(),
        height: z.number().int().positive(),
        toOriginal: z
          .array(z.number())
          .length(9)
          .nullable()
          .default(null)
          .describe(
            'Takes a place of the picture shown to the same in the original, both as shares (x, y, 1) from the left top: a matrix in row order; divide by the third. null: noted before this was told',
          ),
      })
      .nullable()
      .default(null)
      .describe(
        'Of a look that cuts, turns or flips: the whole upright original at full size. What is read and pointed out lies in that one, width and height are those of the picture shown; null: they are the same',
      ),
    target: z
      .object({
        frame: z.string().describe('The frame with the 24-patch target'),
        name: z.string().describe('Its name as it was then'),
        profile: sha256Hex.describe('Hash of the balance and the matrix'),
      })
      .nullable()
      .default(null)
      .describe(
        'The target that it was balanced on, whose matrix stood in place of the camera’s; null: balanced as shot',
      ),
    version: z.number().int(),
  }),
  z.object({
    state: z.literal('cannot'),
    reason: finding,
    preview: z.boolean().describe('true where an embedded preview can be shown all the same (first-view)'),
    width: z.number().int().positive().nullable(),
    height: z.number().int().positive().nullable(),
    orientation: orientation.nullable(),
    version: z.number().int(),
  }),
]);

export const verdict = z
  .object({
    judgement: z.enum(['good', 'doubt', 'bad', 'unknown']),
    findings: z.array(finding).min(1),
    figure: z.object({ value: z.number(), unit: z.string() }).nullable(),
  })
  .meta({ id: 'Verdict', description: 'What the readings mean for one of the five questions' });

export const captureFacts = z
  .object({
    cameraMake: z.string().nullable(),
    cameraModel: z.string().nullable(),
    lensModel: z.string().nullable(),
    exposureTimeS: z.number().positive().nullable(),
    fNumber: z.number().positive().nullable(),
    sensitivity: z.number().positive().nullable(),
    focalLengthMm: z.number().positive().nullable(),
  })
  .meta({
    id: 'CaptureFacts',
    description: 'What the camera says of the exposure; null where it does not say',
  });

const share = z.number().min(0).max(1);
const focusSpot = z
  .object({
    box: z
      .object({ left: share, top: share, right: share, bottom: share })
      .refine(({ left, top, right, bottom }) => left < right && top < bottom, 'a box without a size')
      .describe('Shares of the upright picture'),
    onward: z.boolean().describe('Also for the frames of its shot from this one on'),
  })
  .meta({ id: 'FocusSpot', description: 'Where a person said that it has to be sharp' });

export const frame = z
  .object({
    id: z.string(),
    job: z.string().describe('Job code; "unsorted" while no job is open'),
    shot: z.string().nullable(),
    shotless: z
      .enum(shotlessReasons)
      .nullable()
      .describe('Why it belongs to no shot of its job; null where it does, and in the tray'),
    camera: z.string(),
    counter: z.number().int().nullable().describe('Running number in the DCF name, 1 to 9999'),
    name: z.string().describe('Name of the file the frame is shown by'),
    kind: z.string().describe('What the bytes are: dng, tiff-raw, jpeg, iso-bmff-raw, text, unknown …'),
    files: z.array(frameFile).min(1),
    times: frameTimes,
    capture: captureFacts,
    picture: framePicture,
    readings: z
      .record(z.string(), z.number())
      .describe('Figures by name with the unit last, e.g. lineMBPerS'),
    verdicts: z.object({
      arrived: verdict,
      sharp: verdict,
      exposed: verdict,
      inPlace: verdict,
      colour: verdict,
    }),
    heldAgainst: z
      .object({
        reference: z
          .string()
          .nullable()
          .describe('The frame, or layout picture, that its place is held against'),
        layout: z.boolean().describe('Whether that is a layout picture'),
        target: z.string().nullable().describe('The frame whose 24-patch target counts for it'),
      })
      .describe('What it is held against now'),
    slate: finding
      .nullable()
      .describe(
        'What was held into the picture and what it changed: a slate, a clock, a grey card; or that it is a rehearsal’s',
      ),
    suggestedMark: z
      .enum(marks)
      .nullable()
      .describe(
        'What the camera’s own `xmp:Rating` suggests; null where it has none, or once somebody has marked the frame',
      ),
    sidecar: z
      .object({
        name: z.string(),
        rating: z.number().nullable().describe('`xmp:Rating` as it stands there'),
        mark: z.enum(marks).nullable().describe('What that rating means; null where it has none'),
        differs: z
          .boolean()
          .describe(
            'It came after somebody had marked the frame, and says something else: the mark stands until somebody marks again',
          ),
        title: z.string().nullable(),
        description: z.string().nullable(),
        creator: z.string().nullable(),
        rights: z.string().nullable(),
      })
      .nullable()
      .describe('What an XMP sidecar that came with the frame says; null where none came'),
    mark: z.enum(marks),
    purpose: z.enum(purposes).describe('What it was taken for; only pictures are judged fully'),
    spot: focusSpot
      .nullable()
      .describe(
        'What was pointed out on this frame; one pointed out on an earlier frame of the shot may count for it',
      ),
    look: frameLook,
    acceptances: z.array(acceptance),
    mutes: z.array(z.enum(questions)).describe('Verdicts that are not spoken of for its shot'),
    share: frameShare,
    remarks: z.array(remark).describe('The oldest first'),
    version: z.number().int().describe('Rises with every change of this frame'),
  })
  .meta({ id: 'Frame', description: 'One press of the shutter' });

export const framePage = z
  .object({
    frames: z.array(frame),
    next: z.string().nullable().describe('Cursor for `after`, null at the end'),
  })
  .meta({ id: 'FramePage', description: 'Frames in shutter order' });

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

export type Frame = z.infer<typeof frame>;
export type FrameFile = z.infer<typeof frameFile>;
export type FramePicture = z.infer<typeof framePicture>;
export type FrameTimes = z.infer<typeof frameTimes>;
export type FrameVerdict = z.infer<typeof verdict>;
export type FramePage = z.infer<typeof framePage>;
export type FramesToMark = z.infer<typeof framesToMark>;
export type FramesMarked = z.infer<typeof framesMarked>;
export type FramePatch = z.infer<typeof framePatch>;
