import { growRegions, regionNumbers } from '../kernels/grow-regions.ts';
import { lightAtShare, logLight } from '../kernels/log-light.ts';
import type { Reduced } from './colour-light.ts';

/** A region of one colour that may be a patch: its middle and its shape. */
export interface Candidate {
  readonly x: number;
  readonly y: number;
  readonly pixels: number;
  /**
   * What makes the region a square of side 1 about its middle: two rows of a matrix. Under it, neighbours on a grid lie at
   * right angles whatever the tilt.
   */
  readonly whiten: readonly [number, number, number, number];
}

/** How unlike its neighbour a pixel of one patch may be, stops: once for clean pictures, once for noise and falloff. */
const tolerances = [0.2, 0.4] as const;

/** Regions told of one pass. Busy pictures have some thousands; only a target's size and shape are of interest. */
const regionsMax = 12_000;

/** Smallest patch, px of the reduced raster: the middle of a patch 6 px wide. */
const pixelsMin = 16;

/** Every region of a reduced raster that may be a patch. Regions of several passes over the same patch come once. */
export function findCandidates({ data, widthPx, heightPx }: Reduced): readonly Candidate[] {
  const pixels = widthPx * heightPx;
  const logs = new Float32Array(data.length);
  // Below a hundredth of the bright end a ratio says more of noise than of colour.
  logLight(data, Math.max(1e-6, 0.01 * lightAtShare(data, 0.98)), logs);
  const labels = new Uint8Array(pixels);
  const stack = new Int32Array(pixels);
  const regions = new Float64Array(regionsMax * regionNumbers);
  const found: Candidate[] = [];
  const seen = new Set<number>();
  for (const tolerance of tolerances) {
    const count = growRegions(
      logs,
      widthPx,
      heightPx,
      tolerance,
      pixelsMin,
      pixels / 24,
      labels,
      stack,
      regions,
    );
    for (let index = 0; index < count; index++) {
      const candidate = patchLike(regions, index * regionNumbers);
      if (candidate === null) continue;
      const key = Math.round(candidate.y / 2) * widthPx + Math.round(candidate.x / 2);
      if (seen.has(key)) continue;
      seen.add(key);
      found.push(candidate);
    }
  }
  return found;
}

/** The region whose numbers begin at `from` as a candidate, where it fills a parallelogram that a tilted square may be. */
function patchLike(numbers: Float64Array, from: number): Candidate | null {
  // By their places: a view of its own for each of some ten thousand regions costs more than what is done with it.
  const size = numbers[from] ?? 0;
  const xx = numbers[from + 3] ?? 0;
  const xy = numbers[from + 4] ?? 0;
  const yy = numbers[from + 5] ?? 0;
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 0)) return null;
  // A parallelogram of edges p and q has the moments (p pT + q qT) / 12, so the area 12 sqrt(det).
  const filled = size / (12 * Math.sqrt(determinant));
  if (filled < 0.82 || filled > 1.12) return null;
  const middle = (xx + yy) / 2;
  const half = Math.sqrt(Math.max(0, middle * middle - determinant));
  // Sides as 1 to 2.2: a tilt of 30 degrees makes 1.15, what shadow or gloss takes of a patch the rest.
  if (middle + half > 4.8 * (middle - half)) return null;
  // The inverse of the lower Cholesky factor of 12 times the moments.
  const a = Math.sqrt(12 * xx);
  const b = (12 * xy) / a;
  const c = Math.sqrt(Math.max(1e-9, 12 * yy - b * b));
  const [x, y] = [numbers[from + 1] ?? 0, numbers[from + 2] ?? 0];
  return { x, y, pixels: size, whiten: [1 / a, 0, -b / (a * c), 1 / c] };
}
