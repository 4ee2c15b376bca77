/**
 * Acutance of a plane of lightness, one pixel at a time: obvious, slow, and the documentation of the kernel.
 *
 * 1. Detail is the lightness less its Gaussian blur (unsharp masking; J. A. C. Yule, Unsharp masks, 1944; from memory).
 * 2. What is within the gate is left alone, and beyond it begins gently: d (1 - gate^2 / d^2).
 * 3. With `strength` times that added, the lightness may leave the range of its surroundings by an eighth of that range at
 *    most: an edge gets steeper and no halo beside it (an eighth: common practice, no source).
 *
 * The result is a factor on the stabilised light of all channels, so colour stays what it is.
 */

import { reflected } from '../reflected-reference.ts';

/** Of step 3. */
const overshootShare = 1 / 8;

export interface AcutancePlan {
  /** The blur from its middle outwards; with both sides it adds up to 1. */
  readonly taps: readonly number[];
  readonly strength: number;
  /** On the scale where noise is 1. */
  readonly gate: number;
  /** Half edge of the square of surroundings. */
  readonly reachPx: number;
}

export function liftReference(
  lightness: readonly (readonly number[])[],
  { taps, strength, gate, reachPx }: AcutancePlan,
): readonly (readonly number[])[] {
  const height = lightness.length;
  const width = lightness[0]?.length ?? 0;
  const at = (row: number, column: number): number =>
    lightness[reflected(row, height)]?.[reflected(column, width)] ?? 0;
  const reach = taps.length - 1;
  const tap = (k: number): number => taps[Math.abs(k)] ?? 0;
  return lightness.map((line, row) =>
    line.map((here, column) => {
      let blurred = 0;
      for (let y = -reach; y <= reach; y++)
        for (let x = -reach; x <= reach; x++) blurred += tap(y) * tap(x) * at(row + y, column + x);
      const detail = here - blurred;
      const counted = Math.abs(detail) > gate ? detail * (1 - (gate * gate) / (detail * detail)) : 0;
      const around: number[] = [];
      for (let y = Math.max(0, row - reachPx); y <= Math.min(height - 1, row + reachPx); y++)
        around.push(...(lightness[y] ?? []).slice(Math.max(0, column - reachPx), column + reachPx + 1));
      const [low, high] = [Math.min(...around), Math.max(...around)];
      const room = overshootShare * (high - low);
      const wanted = Math.min(high + room, Math.max(low - room, here + strength * counted));
      return here > 1 ? Math.max(0, wanted) / here : 1;
    }),
  );
}

/**
 * A Gaussian of `sigmaPx` as pixels see it: its mean over each of them, up to three standard deviations, adding up to 1. The
 * mean, since a narrow Gaussian read at pixels' middles is narrower still.
 */
export function gaussianTaps(sigmaPx: number): number[] {
  const reach = Math.max(1, Math.ceil(3 * sigmaPx));
  const upTo = (x: number): number => erf(x / (sigmaPx * Math.SQRT2));
  const taps = Array.from({ length: reach + 1 }, (_, k) => (upTo(k + 0.5) - upTo(k - 0.5)) / 2);
  const sum = taps.reduce((total, tap, k) => total + (k === 0 ? tap : 2 * tap), 0);
  return taps.map((tap) => tap / sum);
}

/** Error function within 1.2e-7 (Numerical Recipes, 2nd ed. 1992, 6.2, `erfcc`; from memory; a test holds its table). */
export function erf(x: number): number {
  const t = 1 / (1 + 0.5 * Math.abs(x));
  const coefficients = [
    -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587,
    -0.82215223, 0.17087277,
  ];
  const polynomial = coefficients.reduceRight((sum, coefficient) => sum * t + coefficient, 0);
  const beyond = t * Math.exp(-x * x + polynomial);
  return x >= 0 ? 1 - beyond : beyond - 1;
}
