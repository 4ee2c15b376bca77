import type { Mosaic } from '../facts/index.ts';
import { estimateNoise, type NoiseProfile } from './noise-profile.ts';

/** A sample that is not light, and what stands there instead. */
export interface MendedPixel {
  /** Index into `Mosaic.values`. */
  readonly at: number;
  readonly value: number;
}

/** Standard deviations of noise that a sample must lie beyond its neighbours. */
const sigmas = 8;

/** And this share of the range at the least. */
const rangeShare = 0.02;

/** And this many times the range of its neighbours: in texture a defect is neither certain nor seen. */
const calmShare = 3;

/**
 * Share of what the sample is off that its four direct neighbours together may be off the same way. The smallest star a
 * lens can make (sigma 0.4 px, as wide as the pixel itself) gives them 0.53 together: P(0.5 < |x| < 1.5) / P(|x| < 0.5) of
 * a Gaussian, twice. A defect gives them nothing.
 */
const sharedMost = 0.2;

/** More defects than one in so many samples are no defects but a picture this does not understand: none are mended. */
const rarity = 2_000;

/**
 * Samples of a mosaic that are defects of the sensor: hot ones (they leak, and are brighter than any light there) and dead
 * ones. Each is found alone, from this one frame:
 *
 * - it lies beyond all eight nearest samples of its own filter, by 8 standard deviations of the noise and 2 % of the range.
 *   Edges and lines go on, and have a neighbour that is like them; texture has a range that it must stand out of by far;
 * - its four direct neighbours, of other filters, know nothing of it: a star or a glint is spread by the lens.
 *
 * The value mended is the median of the eight. Two defects side by side of one filter are not found. The mosaic is read
 * only; a border of three samples is left as it is.
 */
export function findHotPixels(
  mosaic: Mosaic,
  noise: NoiseProfile | null = estimateNoise(mosaic),
): readonly MendedPixel[] {
  // Neighbours of a filter lie elsewhere in other layouts.
  if (mosaic.layout !== undefined) return [];
  const { values, widthPx, heightPx } = mosaic;
  const most = Math.max(8, (widthPx * heightPx) / rarity);
  const found: MendedPixel[] = [];
  const near = 2 * widthPx;
  const least = rangeShare * (mosaic.whiteLevel - Math.max(...mosaic.blackLevels));
  for (let row = 3; row < heightPx - 3; row++) {
    const end = row * widthPx + widthPx - 3;
    for (let at = row * widthPx + 3; at < end; at++) {
      const value = values[at] ?? 0;
      const left = value - (values[at - 2] ?? 0);
      const right = value - (values[at + 2] ?? 0);
      // All but a few samples end here: they lie between two neighbours, or hardly beyond.
      if (!((left > least && right > least) || (left < -least && right < -least))) continue;
      const above = value - (values[at - near] ?? 0);
      const below = value - (values[at + near] ?? 0);
      if (left > 0 ? Math.min(above, below) < least : Math.max(above, below) > -least) continue;
      const mended = mendedValue(mosaic, noise, row, at);
      if (mended === null) continue;
      found.push({ at, value: mended });
      if (found.length > most) return [];
    }
  }
  return found;
}

function mendedValue(mosaic: Mosaic, noise: NoiseProfile | null, row: number, at: number): number | null {
  const { values, widthPx, blackLevels, whiteLevel } = mosaic;
  const position = (row & 1) * 2 + ((at - row * widthPx) & 1);
  const black = blackLevels[position] ?? 0;
  const around = sameFilter(widthPx).map((step) => values[at + step] ?? 0);
  around.sort((a, b) => a - b);
  const [lowest = 0, , , fourth = 0, fifth = 0, , , highest = 0] = around;
  const median = (fourth + fifth) / 2;
  const value = values[at] ?? 0;
  const beyond = value > median ? value - highest : lowest - value;
  const { readVariance, shotPerValue } = noise?.[position] ?? { readVariance: 0, shotPerValue: 0 };
  if (beyond < calmShare * (highest - lowest)) return null;
  const level = Math.max(0, (value > median ? highest : median) - black);
  const sigma = Math.sqrt(readVariance + shotPerValue * level);
  if (beyond < Math.max(sigmas * sigma, rangeShare * (whiteLevel - black))) return null;
  // Shares of the range, so that channels can be compared; balance would only make red and blue count more.
  const off = (value - median) / (whiteLevel - black);
  const shared = [-1, 1, -widthPx, widthPx].reduce((sum, step) => sum + excess(mosaic, at + step), 0);
  return shared / off > sharedMost ? null : Math.round(median);
}

/** What a sample lies above the median of the four of its filter that do not lie across the defect. */
function excess({ values, widthPx, blackLevels, whiteLevel }: Mosaic, at: number): number {
  const row = Math.floor(at / widthPx);
  const black = blackLevels[(row & 1) * 2 + ((at - row * widthPx) & 1)] ?? 0;
  const around = [-2, 2, -2 * widthPx, 2 * widthPx].map((step) => values[at + step] ?? 0);
  around.sort((a, b) => a - b);
  const [, second = 0, third = 0] = around;
  return ((values[at] ?? 0) - (second + third) / 2) / (whiteLevel - black);
}

function sameFilter(widthPx: number): readonly number[] {
  const rows = 2 * widthPx;
  return [-rows - 2, -rows, -rows + 2, -2, 2, rows - 2, rows, rows + 2];
}

/** Does `work` while the mended values stand in the mosaic, which is as it was afterwards. */
export function withMended<T>(mosaic: Mosaic, mended: readonly MendedPixel[], work: () => T): T {
  const { values } = mosaic;
  const before = mended.map(({ at }) => values[at] ?? 0);
  for (const { at, value } of mended) values[at] = value;
  try {
    return work();
  } finally {
    mended.forEach(({ at }, index) => {
      values[at] = before[index] ?? 0;
    });
  }
}
