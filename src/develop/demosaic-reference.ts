/**
 * Full-size colour from a mosaic, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * H. S. Malvar, L. He, R. Cutler: High-quality linear interpolation for demosaicing of Bayer-patterned color images,
 * ICASSP 2004, DOI 10.1109/ICASSP.2004.1326587. A missing colour is its bilinear mean, corrected by the gradient (the
 * Laplacian) of the colour that is there; the gains 1/2, 5/8 and 3/4 of the correction are the paper's. Where we differ:
 * the filter works on the root scale of `kernels/root-scale.ts`, since the paper's pictures are codes and ours is light.
 */
import type { Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { rootFoot } from './kernels/root-scale.ts';
import type { BinPlan } from './plan.ts';

/** The paper's figure 2, times 8: rows from the top, 5 x 5 around the pixel. */
const greenAtColour: readonly (readonly number[])[] = [
  [0, 0, -1, 0, 0],
  [0, 0, 2, 0, 0],
  [-1, 2, 4, 2, -1],
  [0, 0, 2, 0, 0],
  [0, 0, -1, 0, 0],
];

/** Red at a green pixel in a red row, and blue at a green pixel in a blue row. */
const colourInItsRow: readonly (readonly number[])[] = [
  [0, 0, 0.5, 0, 0],
  [0, -1, 0, -1, 0],
  [-1, 4, 5, 4, -1],
  [0, -1, 0, -1, 0],
  [0, 0, 0.5, 0, 0],
];

/** Red at a green pixel in a blue row, and blue at a green pixel in a red row. */
const colourInItsColumn: readonly (readonly number[])[] = [
  [0, 0, -1, 0, 0],
  [0, -1, 4, -1, 0],
  [0.5, 0, 5, 0, 0.5],
  [0, -1, 4, -1, 0],
  [0, 0, -1, 0, 0],
];

/** Red at a blue pixel, blue at a red pixel. */
const colourAtColour: readonly (readonly number[])[] = [
  [0, 0, -1.5, 0, 0],
  [0, 2, 0, 2, 0],
  [-1.5, 0, 6, 0, -1.5],
  [0, 2, 0, 2, 0],
  [0, 0, -1.5, 0, 0],
];

/**
 * Balanced camera RGB at (row, column) of the full-size picture, before highlights are looked after. Interpolated values
 * are held at the channel's saturation, beyond which nothing was seen.
 */
export function demosaicPixel(mosaic: Mosaic, plan: BinPlan, row: number, column: number): Vector3 {
  const own = filterAt(mosaic, row, column);
  const channel = (wanted: number): number => {
    if (wanted === own) return Math.max(-rootFoot, balancedAt(mosaic, plan, row, column));
    const root = weighted(mosaic, plan, row, column, weightsFor(mosaic, row, column, wanted)) / 8;
    const value = root * Math.abs(root) - rootFoot;
    return Math.min(value, plan.saturation[wanted] ?? value);
  };
  return [channel(0), channel(1), channel(2)];
}

/** The same by bilinear interpolation: the mean of the nearest pixels of the colour in the 3 x 3 around. */
export function bilinearPixel(mosaic: Mosaic, plan: BinPlan, row: number, column: number): Vector3 {
  const channel = (wanted: number): number => {
    if (wanted === filterAt(mosaic, row, column)) return balancedAt(mosaic, plan, row, column);
    const near = [-1, 0, 1]
      .flatMap((dy) => [-1, 0, 1].map((dx) => [row + dy, column + dx] as const))
      .filter(([y, x]) => filterAt(mosaic, y, x) === wanted)
      .map(([y, x]) => balancedAt(mosaic, plan, y, x));
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  };
  return [channel(0), channel(1), channel(2)];
}

function weightsFor(
  mosaic: Mosaic,
  row: number,
  column: number,
  wanted: number,
): readonly (readonly number[])[] {
  if (wanted === 1) return greenAtColour;
  if (filterAt(mosaic, row, column) !== 1) return colourAtColour;
  return filterAt(mosaic, row, column + 1) === wanted ? colourInItsRow : colourInItsColumn;
}

function weighted(
  mosaic: Mosaic,
  plan: BinPlan,
  row: number,
  column: number,
  weights: readonly (readonly number[])[],
): number {
  return weights
    .flatMap((line, y) => line.map((weight, x) => weight * rootAt(mosaic, plan, row + y - 2, column + x - 2)))
    .reduce((sum, value) => sum + value, 0);
}

/** Mirroring at the first or last sample keeps a pixel's filter, so filters are counted on beyond the mosaic. */
function filterAt(mosaic: Mosaic, row: number, column: number): number {
  return mosaic.filters[(row & 1) * 2 + (column & 1)] ?? 1;
}

/** One sample on the root scale. */
export function rootAt(mosaic: Mosaic, plan: BinPlan, row: number, column: number): number {
  return Math.sqrt(Math.max(0, balancedAt(mosaic, plan, row, column) + rootFoot));
}

/** One sample, black taken off and balanced; beyond the mosaic's edge it is mirrored at the first or last sample. */
export function balancedAt(mosaic: Mosaic, plan: BinPlan, row: number, column: number): number {
  const y = mirrored(row, mosaic.heightPx);
  const x = mirrored(column, mosaic.widthPx);
  const position = (y & 1) * 2 + (x & 1);
  const value = mosaic.values[y * mosaic.widthPx + x] ?? 0;
  return (value - (plan.black[position] ?? 0)) * (plan.scale[position] ?? 0);
}

function mirrored(at: number, count: number): number {
  if (at < 0) return -at;
  return at < count ? at : 2 * (count - 1) - at;
}
