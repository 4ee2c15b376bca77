import type { Vector3 } from './matrix.ts';
import { d50Xyz } from './white-points.ts';

/** CIE 15:2018, 8.2.1: the two constants as exact fractions. */
const epsilon = 216 / 24_389;
const kappa = 24_389 / 27;

/** CIE L*a*b* of XYZ relative to `white` (Y = 1 at white). L* 0 … 100 for Y 0 … 1. CIE 15:2018, 8.2.1.1. */
export function xyzToLab(xyz: Vector3, white: Vector3 = d50Xyz): Vector3 {
  const fx = compress(xyz[0] / white[0]);
  const fy = compress(xyz[1] / white[1]);
  const fz = compress(xyz[2] / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** The inverse of {@link xyzToLab}. CIE 15:2018, Annex D. */
export function labToXyz([L, a, b]: Vector3, white: Vector3 = d50Xyz): Vector3 {
  const fy = (L + 16) / 116;
  return [white[0] * expand(fy + a / 500), white[1] * expand(fy), white[2] * expand(fy - b / 200)];
}

function compress(t: number): number {
  return t > epsilon ? Math.cbrt(t) : (kappa * t + 16) / 116;
}

function expand(f: number): number {
  return f ** 3 > epsilon ? f ** 3 : (116 * f - 16) / kappa;
}
