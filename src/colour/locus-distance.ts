import type { Chromaticity } from './white-points.ts';

/**
 * Distance of a chromaticity from the Planckian locus in CIE 1960 u, v (Duv): positive is above it (towards green),
 * negative below (towards magenta). Good to 0.0001 from 2600 to 20,000 K within 0.03 of the locus.
 *
 * Y. Ohno, "Practical Use and Calculation of CCT and Duv", LEUKOS 10 (2014) 47-55, the polynomial that ANSI C78.377 prints.
 * The coefficients are from memory; the test holds them against Robertson's locus and the CIE illuminants.
 */
export function xyToDuv([x, y]: Chromaticity): number {
  const u = (4 * x) / (-2 * x + 12 * y + 3) - 0.292;
  const v = (6 * y) / (-2 * x + 12 * y + 3) - 0.24;
  const distance = Math.hypot(u, v);
  const angle = Math.acos(u / distance);
  return distance - locusRadius.reduce((sum, coefficient) => sum * angle + coefficient, 0);
}

/** Of the locus about (0.292, 0.24), by falling powers of the angle. */
const locusRadius = [-0.00616793, 0.0893944, -0.5179722, 1.5317403, -2.4243787, 1.925865, -0.471106];

/** CIE 1976 u', v' of a chromaticity. CIE 15:2018, 8.1. */
export function xyToUv76([x, y]: Chromaticity): readonly [u: number, v: number] {
  const divisor = -2 * x + 12 * y + 3;
  return [(4 * x) / divisor, (9 * y) / divisor];
}
