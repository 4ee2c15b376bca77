/**
 * Full-size colour from a mosaic, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * I. Pekkucuksen, Y. Altunbasak: Gradient based threshold free color filter array interpolation, ICIP 2010,
 * DOI 10.1109/ICIP.2010.5654327 (read from memory):
 *
 * 1. Green minus the row's colour, told twice for every pixel: by its row and by its column. What is missing is the mean
 *    of its two neighbours, corrected by the second derivative of what is there.
 * 2. The unrest of a direction: how much its difference changes along itself.
 * 3. At red and blue pixels the difference is the mean of four sides, each weighted by one over its squared unrest: an
 *    edge is never crossed, and no threshold decides where one is.
 * 4. The other colour at red and blue pixels: the difference from those on the diagonals, with the paper's 7 x 7 filter
 *    (10 near, -1 far, over 32). At green pixels: the mean of the four neighbours' differences.
 *
 * Where we differ: the filter works on the root scale of `kernels/root-scale.ts`, since the paper's pictures are codes and
 * ours is light. A side is the pixel and three beyond, three wide (the paper: five by five), and counts itself half, the
 * next two a quarter each (the paper: five evenly). Measured on the photographs of docs/demosaic.md: 0.9 dB better.
 */
import type { Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { unrestFloor } from './kernels/demosaic-rows.ts';
import { rootFoot } from './kernels/root-scale.ts';
import type { BinPlan } from './plan.ts';
import { reflected } from './reflected-reference.ts';

type At = (row: number, column: number) => number;

/**
 * Balanced camera RGB at (row, column) of the full-size picture, before highlights are looked after. Interpolated values
 * are held at the channel's saturation, beyond which nothing was seen.
 */
export function demosaicReference(mosaic: Mosaic, plan: BinPlan): (row: number, column: number) => Vector3 {
  const root = remembered((row, column) => rootAt(mosaic, plan, row, column));
  const sign: At = (row, column) => (filterAt(mosaic, row, column) === 1 ? -1 : 1);

  // 1. Differences.
  const inRow = remembered((y, x) => sign(y, x) * missingLessOwn((step) => root(y, x + step)));
  const inColumn = remembered((y, x) => sign(y, x) * missingLessOwn((step) => root(y + step, x)));

  // 2. Unrest.
  const unrestInRow = remembered((y, x) => Math.abs(inRow(y, x - 1) - inRow(y, x + 1)));
  const unrestInColumn = remembered((y, x) => Math.abs(inColumn(y - 1, x) - inColumn(y + 1, x)));

  // 3. Green minus own colour at red and blue.
  const blend = remembered((row, column) => {
    let sum = 0;
    let weights = 0;
    for (const [stepY, stepX] of sides) {
      const along: At = (far, beside) =>
        stepX === 0
          ? unrestInColumn(row + far * stepY, column + beside)
          : unrestInRow(row + beside, column + far * stepX);
      const unrest = sumOf([0, 1, 2, 3], (far) => sumOf([-1, 0, 1], (beside) => along(far, beside)));
      const difference = stepX === 0 ? inColumn : inRow;
      const weight = 1 / (unrestFloor + unrest * unrest);
      const told: At = (far) => difference(row + far * stepY, column + far * stepX);
      sum += weight * (0.5 * told(0, 0) + 0.25 * told(1, 0) + 0.25 * told(2, 0));
      weights += weight;
    }
    return sum / weights;
  });

  // 4. Green minus the other colour at red and blue.
  const cross = remembered((y, x) => {
    const near = sumOf([-1, 1], (dy) => sumOf([-1, 1], (dx) => blend(y + dy, x + dx)));
    const above = sumOf([-3, 3], (dy) => sumOf([-1, 1], (dx) => blend(y + dy, x + dx)));
    const beside = sumOf([-1, 1], (dy) => sumOf([-3, 3], (dx) => blend(y + dy, x + dx)));
    return (10 * near - above - beside) / 32;
  });

  /** Green minus `wanted` at any pixel. */
  const differenceTo = (wanted: number, y: number, x: number): number => {
    const own = filterAt(mosaic, y, x);
    if (own === wanted) return blend(y, x);
    if (own !== 1) return cross(y, x);
    return sumOf(sides, ([stepY, stepX]) => differenceTo(wanted, y + stepY, x + stepX)) / 4;
  };

  return (row, column) => {
    const own = filterAt(mosaic, row, column);
    const green = own === 1 ? root(row, column) : root(row, column) + blend(row, column);
    const channel = (wanted: number): number => {
      if (wanted === own) return Math.max(-rootFoot, balancedAt(mosaic, plan, row, column));
      const found = wanted === 1 ? green : green - differenceTo(wanted, row, column);
      const value = found * Math.abs(found) - rootFoot;
      return Math.min(value, plan.saturation[wanted] ?? value);
    };
    return [channel(0), channel(1), channel(2)];
  };
}

const sides = [
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
] as const;

/** What is missing at step 0 along a line, less what is there: (-1, 2, -2, 2, -1) / 4. */
function missingLessOwn(at: (step: number) => number): number {
  return (at(-1) + at(1)) / 2 - at(0) / 2 - (at(-2) + at(2)) / 4;
}

function sumOf<T>(items: readonly T[], of: (item: T) => number): number {
  return items.reduce((sum, item) => sum + of(item), 0);
}

/** Each place is computed once. */
function remembered(compute: At): At {
  const known = new Map<string, number>();
  return (row, column) => {
    const key = `${row} ${column}`;
    const value = known.get(key) ?? compute(row, column);
    known.set(key, value);
    return value;
  };
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
  const y = reflected(row, mosaic.heightPx);
  const x = reflected(column, mosaic.widthPx);
  const position = (y & 1) * 2 + (x & 1);
  const value = mosaic.values[y * mosaic.widthPx + x] ?? 0;
  return (value - (plan.black[position] ?? 0)) * (plan.scale[position] ?? 0);
}
