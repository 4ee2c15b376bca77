import { z } from 'zod';
import { marks, purposes, questions, shotlessReasons } from '../facts/index.ts';
import { acceptance } from './choices.ts';
import { focusSpot } from './focus-spot.ts';
import { frameFile } from './frame-files.ts';
import { framePicture } from './frame-picture.ts';
import { frameLook } from './looks.ts';
import { finding, instant } from './primitives.ts';
import { frameShare, remark } from './remarks.ts';

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

export type Frame = z.infer<typeof frame>;

export type FrameTimes = z.infer<typeof frameTimes>;

export type FrameVerdict = z.infer<typeof verdict>;

export type FramePage = z.infer<typeof framePage>;
