import { z } from 'zod';
import { blurKinds, lightSources, spotTellers } from '../facts/index.ts';
import { instant } from './primitives.ts';

const share = z.number().min(0).max(1);
const box = { left: share, top: share, right: share, bottom: share };
const px = z.number().describe('Pixels of the full-size frame');
const ev = z.number().describe('EV; positive is brighter');

const edgeWidth = z
  .object({
    widthPx: px.describe('10-90 % rise of the edge, px'),
    errorPx: px.describe('Standard deviation of it, px'),
    sigmaPx: px.describe('Standard deviation of the Gaussian that fits best, px'),
    mtf50: z.number().nullable().describe('Cycles/pixel; null where the response is never a half'),
    snr: z.number(),
    edges: z.number().int().nonnegative(),
    confidence: share,
  })
  .meta({ id: 'EdgeWidth', description: 'How wide edges are' });

const edgeProfile = z
  .object({
    x: share,
    y: share,
    acrossDegrees: z.number().min(0).max(180),
    fromPx: px,
    stepPx: px,
    heights: z.array(z.number().nullable()).describe('0 is the dark side of the edge, 1 the bright one'),
    tenPx: px,
    ninetyPx: px,
  })
  .meta({ id: 'EdgeProfile', description: 'How light rises across the edge that stands for the figure' });

const sharpReadings = z.object({
  samplePx: z.number().positive().describe('Pixels of the full-size frame for one that was read'),
  spot: z
    .object({ ...box, teller: z.enum(spotTellers) })
    .nullable()
    .describe('Where the verdict speaks of, shares of the upright picture'),
  atSpot: edgeWidth.nullable(),
  elsewhere: edgeWidth.extend(box).nullable().describe('The sharpest region, where it is another one'),
  blur: z.object({
    kind: z.enum(blurKinds),
    directionDegrees: z.number().nullable(),
    lengthPx: z.number().nullable(),
  }),
  map: z.object({
    columns: z.number().int().positive(),
    rows: z.number().int().positive(),
    columnEnds: z.array(share).describe('Where each column of tiles ends, share of the width'),
    rowEnds: z.array(share),
    widthsPx: z.array(z.number().nullable()),
  }),
  profile: edgeProfile.nullable(),
});

const channel = z.object({
  saturatedPercent: z.number(),
  headroomStops: z.number(),
  underNoisePercent: z.number(),
});

const exposedReadings = z.object({
  red: channel,
  green: channel,
  blue: channel,
  saturatedPercent: z.number(),
  islandsPercent: z.number(),
  whiteBackdropPercent: z.number(),
  headroomStops: z.number(),
  underNoisePercent: z.number(),
  middleStops: z.number().nullable(),
  histogram: z
    .object({
      fromStops: z.number(),
      stepStops: z.number().positive(),
      red: z.array(z.number()),
      green: z.array(z.number()),
      blue: z.array(z.number()),
    })
    .describe('Share of a channel’s samples by stops about 18 % grey, %'),
  lost: z
    .object({
      columns: z.number().int().positive(),
      rows: z.number().int().positive(),
      runs: z.array(z.number().int().nonnegative()),
    })
    .describe('Cells where light is lost, in runs: how many, then red 1 + green 2 + blue 4, and again'),
});

const lightOfFrame = z.object({
  frame: z.string(),
  name: z.string(),
  at: instant,
  ev: ev.nullable().describe('From the baseline, what the dials explain taken off; null: cannot be compared'),
});

const lightReadings = z.object({
  baseline: z
    .object({ kind: z.enum(['reference', 'middle']), name: z.string().nullable() })
    .describe('The shot’s reference, or the middle of these frames'),
  goodEv: z.number().describe('Limits in force, without sign'),
  badEv: z.number(),
  frames: z.array(lightOfFrame).describe('The last ones of the shot by this camera, this one at the end'),
});

const depthMm = z.object({ nearMm: z.number(), farMm: z.number().nullable() });

const depthReadings = z.object({
  missing: z
    .array(z.enum(['focal', 'aperture', 'distance', 'format']))
    .describe('What the camera did not say; then there is no `field`'),
  field: z
    .object({
      focalMm: z.number(),
      fNumber: z.number(),
      distanceMm: z.number(),
      circleMm: z.number().describe('Diameter of a blur disc that still counts as a point'),
      airyMm: z.number().describe('Diameter of the Airy disc to its first dark ring'),
      ...depthMm.shape,
      withDiffraction: depthMm.nullable().describe('null: diffraction takes all of the circle'),
    })
    .nullable(),
});

const hex = z
  .string()
  .regex(/^#[0-9a-f]{6}$/)
  .describe('sRGB (IEC 61966-2-1), to be shown; colours beyond it are cut');
const corner = z.tuple([z.number(), z.number()]);

const targetReadings = z.object({
  source: z.enum(lightSources),
  corners: z
    .tuple([corner, corner, corner, corner])
    .describe('Of the field of patches, shares of the picture: at dark skin, bluish green, black, white'),
  mean: z
    .number()
    .nullable()
    .describe('CIEDE2000 over the patches; null where the camera’s colours are not known'),
  percentile90: z.number().nullable(),
  max: z.number().nullable(),
  goodMean: z.number().describe('Limits in force'),
  badMean: z.number(),
  goodMax: z.number(),
  badMax: z.number(),
  patches: z
    .array(
      z.object({
        patch: z.number().int().min(1).max(24),
        published: hex,
        measured: hex.nullable(),
        deltaE00: z.number().nullable(),
        deltaL: z.number().nullable(),
        deltaC: z.number().nullable(),
        saturatedPercent: z.number(),
      }),
    )
    .describe('1 (dark skin) to 24 (black), row by row'),
});

export const frameReadings = z
  .object({
    frame: z.string(),
    version: z.number().int().describe('The frame’s'),
    source: z
      .enum(lightSources)
      .nullable()
      .describe('What was read: `preview` is preliminary; null: nothing yet, or nothing can be'),
    sharp: sharpReadings.nullable(),
    goodEdgePx: z.number().describe('Limits in force of the width of edges'),
    badEdgePx: z.number(),
    exposed: exposedReadings.nullable(),
    light: lightReadings.nullable(),
    depth: depthReadings,
    target: targetReadings.nullable().describe('The 24-patch target in it; null where none was read'),
  })
  .meta({ id: 'FrameReadings', description: 'What was read in a frame’s pixels, for maps and plots' });

export type FrameReadings = z.infer<typeof frameReadings>;
export type SharpReadings = z.infer<typeof sharpReadings>;
export type EdgeProfileReading = z.infer<typeof edgeProfile>;
export type ExposedReadings = z.infer<typeof exposedReadings>;
export type LightReadings = z.infer<typeof lightReadings>;
export type TargetReadings = z.infer<typeof targetReadings>;
export type DepthReadings = z.infer<typeof depthReadings>;
