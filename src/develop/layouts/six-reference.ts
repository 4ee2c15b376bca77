import type { Vector3 } from '../../colour/index.ts';
import { rootFoot } from '../kernels/root-scale.ts';
import { alongColumn, alongRow, differenceTaps, filterOfSix, greenTaps, type Tap } from './six-taps.ts';

/**
 * Full-size colour from a mosaic of 6 x 6, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * 1. On the root scale of light (`kernels/root-scale.ts`), green is told twice at every red and blue: by its row and by its
 *    column, from means under a thin bell (`greenTaps`; normalized convolution, Knutsson and Westin 1993), corrected by what
 *    the sample lies above the mean of its own colour under the same bell.
 * 2. The unrest of a direction is how much green bends along it, blurred; each direction counts by one over its squared
 *    unrest, as in the demosaic of 2 x 2 mosaics (`demosaic-reference.ts`, which names its paper).
 * 3. Red and blue are green and the mean of what samples of theirs lie above it around.
 *
 * Beyond its edge the mosaic goes on by its own repeat: six samples further in.
 */
export interface SixLight {
  readonly filters: readonly number[];
  /** Balanced light of the sample at (row, column), black taken off. */
  readonly at: (row: number, column: number) => number;
  /** Where red, green, blue saturate. */
  readonly saturation: Vector3;
}

export const unrestFloor = 1e-6;

/** Half of a bell of standard deviation 1.5 pixels: at 0, 1, 2, 3. */
export const blurWeights: readonly number[] = blurOf(1.5);

function blurOf(sigma: number): readonly number[] {
  const half = [0, 1, 2, 3].map((step) => Math.exp(-(step ** 2) / (2 * sigma ** 2)));
  const sum = half.reduce((total, weight, step) => total + (step === 0 ? weight : 2 * weight), 0);
  return half.map((weight) => weight / sum);
}

export function sixReference({
  filters,
  at,
  saturation,
}: SixLight): (row: number, column: number) => Vector3 {
  const root: At = (row, column) => Math.sqrt(Math.max(0, at(row, column) + rootFoot));
  const sum = (of: At, taps: readonly Tap[], y: number, x: number): number =>
    taps.reduce((total, { row, column, weight }) => total + weight * of(y + row, x + column), 0);
  const byRow = remembered((y, x) => sum(root, greenTaps(filters, y, x, alongRow), y, x));
  const byColumn = remembered((y, x) => sum(root, greenTaps(filters, y, x, alongColumn), y, x));
  const bendInRow = remembered((y, x) => Math.abs(byRow(y, x - 1) + byRow(y, x + 1) - 2 * byRow(y, x)));
  const bendInColumn = remembered((y, x) =>
    Math.abs(byColumn(y - 1, x) + byColumn(y + 1, x) - 2 * byColumn(y, x)),
  );
  const blurred = (of: At): At =>
    remembered((y, x) => {
      let total = 0;
      for (let dy = -3; dy <= 3; dy++) {
        for (let dx = -3; dx <= 3; dx++) {
          const weight = (blurWeights[Math.abs(dy)] ?? 0) * (blurWeights[Math.abs(dx)] ?? 0);
          total += weight * of(y + dy, x + dx);
        }
      }
      return total;
    });
  const [unrestInRow, unrestInColumn] = [blurred(bendInRow), blurred(bendInColumn)];
  const green = remembered((y, x) => {
    const row = 1 / (unrestFloor + unrestInRow(y, x) ** 2);
    const column = 1 / (unrestFloor + unrestInColumn(y, x) ** 2);
    return (row * byRow(y, x) + column * byColumn(y, x)) / (row + column);
  });
  const above: At = (y, x) => root(y, x) - green(y, x);
  return (y, x) => {
    const channel = (colour: number): number => {
      if (filterOfSix(filters, y, x) === colour) return Math.max(-rootFoot, at(y, x));
      const found =
        green(y, x) + (colour === 1 ? 0 : sum(above, differenceTaps(filters, y, x, colour), y, x));
      return Math.min(saturation[colour] ?? 1, found * Math.abs(found) - rootFoot);
    };
    return [channel(0), channel(1), channel(2)];
  };
}

type At = (row: number, column: number) => number;

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
