import { z } from 'zod';

/** NaN and infinity, which a broken file can bring about, read as LibRaw's "unknown". */
const number = z.number().catch(0);
const numbers = z.array(number);
const matrix = z.array(numbers);

/**
 * What is read from LibRaw's metadata. Parsed, because it crosses from C++ through an untyped border and its content was
 * written by a stranger. Names are LibRaw's own.
 */
export const librawMetadata = z.object({
  width: z.number().int().nonnegative(),
  height: z.number().int().nonnegative(),
  raw_width: z.number().int().nonnegative(),
  raw_height: z.number().int().nonnegative(),
  top_margin: z.number().int().nonnegative(),
  left_margin: z.number().int().nonnegative(),
  flip: z.number().int(),
  filters: z.number().int().nonnegative(),
  colors: z.number().int(),
  cdesc: z.string(),
  color_data: z.object({
    black: number,
    maximum: number,
    cam_mul: numbers,
    pre_mul: numbers,
    rgb_cam: matrix,
    cam_xyz: matrix,
    dng_color: z.array(z.object({ illuminant: number, colormatrix: matrix, calibration: matrix })),
    dng_levels: z.object({ asshotneutral: numbers, analogbalance: numbers, baseline_exposure: number }),
  }),
});

export type LibRawMetadata = z.infer<typeof librawMetadata>;

export const librawMosaic = z.object({
  raw_width: z.number().int().positive(),
  raw_height: z.number().int().positive(),
  top_margin: z.number().int().nonnegative(),
  left_margin: z.number().int().nonnegative(),
  width: z.number().int().positive(),
  height: z.number().int().positive(),
  data: z.instanceof(Uint16Array),
});

export type LibRawMosaic = z.infer<typeof librawMosaic>;

/** A picture that LibRaw finished as far as it was asked to. */
export const librawImage = z.object({
  width: z.number().int().positive(),
  height: z.number().int().positive(),
  colors: z.literal(3),
  bits: z.literal(16),
  data: z.instanceof(Uint16Array),
});
