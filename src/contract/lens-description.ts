import { z } from 'zod';
import type { LensStep, WarpPlane } from '../facts/index.ts';

/** Beyond any lens. */
const coefficient = z.number().min(-10).max(10);
const even = z
  .tuple([coefficient, coefficient, coefficient, coefficient])
  .describe('Factor of the distance: coefficients of r^0, r^2, r^4, r^6.');

/**
 * A lens's corrections by hand, after the published model of DNG 1.7.1, chapter 7 (WarpRectilinear, which is Brown and
 * Conrady's; FixVignetteRadial). r is the distance from the centre in units of the farthest corner's.
 */
export const lensDescription = z
  .strictObject({
    $schema: z.string().max(500).optional(),
    title: z.string().max(200).optional().describe('What it is for; not used.'),
    centre: z
      .tuple([z.number().min(0).max(1), z.number().min(0).max(1)])
      .default([0.5, 0.5])
      .describe('Shares of the width and height of the picture as the sensor lies.'),
    radial: even
      .optional()
      .describe('Where light shown at r is found: r times this factor. 1 0 0 0 changes nothing.'),
    tangential: z
      .tuple([coefficient, coefficient])
      .optional()
      .describe('The tangential part, t0 and t1; 0 0 changes nothing.'),
    red: even.optional().describe('A factor more for red, so that coloured edges meet.'),
    blue: even.optional().describe('A factor more for blue.'),
    falloff: z
      .tuple([coefficient, coefficient, coefficient, coefficient, coefficient])
      .optional()
      .describe('Light times 1 + k0 r^2 + k1 r^4 + k2 r^6 + k3 r^8 + k4 r^10, before the picture is bent.'),
  })
  .refine(
    (lens) => (lens.radial ?? [1])[0] > 0.2 && (lens.red ?? [1])[0] > 0.2 && (lens.blue ?? [1])[0] > 0.2,
    {
      message: 'the first coefficient of a factor of the distance is near 1',
    },
  );

export type LensDescription = z.infer<typeof lensDescription>;

/** The steps that a description means: falloff first, then one warp. */
export function lensStepsOf({
  centre,
  radial = unchanged,
  tangential = [0, 0],
  red = unchanged,
  blue = unchanged,
  falloff,
}: LensDescription): readonly LensStep[] {
  const plane = (own: Even): WarpPlane => ({
    radial: spread(product(radial, own)),
    tangential,
    range: [0, Number.POSITIVE_INFINITY],
    isReciprocal: false,
  });
  const isBent =
    [radial, red, blue].some((factor) => !isUnchanged(factor)) || tangential.some((t) => t !== 0);
  const isParted = !isUnchanged(red) || !isUnchanged(blue);
  const planes = isParted ? [plane(red), plane(unchanged), plane(blue)] : [plane(unchanged)];
  return [
    ...(falloff === undefined ? [] : [{ kind: 'radial-gain', k: falloff, centre } as const]),
    ...(isBent ? [{ kind: 'warp', planes, centre } as const] : []),
  ];
}

type Even = [number, number, number, number];

const unchanged: Even = [1, 0, 0, 0];

function isUnchanged(factor: Even): boolean {
  return factor.every((value, index) => value === unchanged[index]);
}

/** Coefficients of a product of polynomials. */
function product(a: Even, b: Even): number[] {
  const out = Array.from({ length: a.length + b.length - 1 }, () => 0);
  a.forEach((x, i) => {
    b.forEach((y, j) => {
      out[i + j] = (out[i + j] ?? 0) + x * y;
    });
  });
  return out;
}

/** Of r^2 to those of r. */
function spread(coefficients: readonly number[]): number[] {
  return coefficients.flatMap((value, index) => (index === 0 ? [value] : [0, value]));
}
