/**
 * Half-size colour from a mosaic, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * The pixel is the centre of a 2x2 block. Green lies on both sides of it, so its mean is where it should be; red and blue
 * lie in corners, a quarter of a half-size pixel off in opposite directions, which plain binning shows as coloured edges.
 * They are brought to the centre by bilinear interpolation among their four nearest, and the detail that this takes away
 * is given back from green: half the difference between green at the centre and green blurred in the same way.
 *
 * Half, not all of it, agrees best with full size reduced by area (test/render/full-size.test.ts): on a real raw mean dE00
 * 0.8, where plain binning is 2.6 off and interpolation alone 1.2.
 */
import type { Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { BinPlan } from './plan.ts';

/** Share of green's lost detail that red and blue are given. */
const detailShare = 0.5;

/** Balanced camera RGB of the half-size pixel at (row, column), before highlights are looked after. */
export function halfPixel(mosaic: Mosaic, plan: BinPlan, row: number, column: number): Vector3 {
  const [green0, green1] = plan.greenPositions;
  const sample = (position: number, y = row, x = column): number => sampleAt(mosaic, plan, y, x, position);
  const green = (sample(green0) + sample(green1)) / 2;
  const colour = (position: number, saturation: number): number => {
    const detail = green - atCentre(position, row, column, (y, x) => greenAt(mosaic, plan, y, x, position));
    const own = atCentre(position, row, column, (y, x) => sample(position, y, x));
    return Math.min(saturation, own + detailShare * detail);
  };
  return [colour(plan.redPosition, plan.saturation[0]), green, colour(plan.bluePosition, plan.saturation[2])];
}

/** Bilinear interpolation at the centre of a block from what lies at `position` of it and the blocks on its far sides. */
function atCentre(
  position: number,
  row: number,
  column: number,
  at: (row: number, column: number) => number,
): number {
  const [stepY, stepX] = farSide(position);
  const near = at(row, column);
  const beside = at(row, column + stepX);
  const above = at(row + stepY, column);
  const across = at(row + stepY, column + stepX);
  return (9 * near + 3 * beside + 3 * above + across) / 16;
}

/** Green where a red or blue sample lies: the mean of the four around it. */
function greenAt(mosaic: Mosaic, plan: BinPlan, row: number, column: number, position: number): number {
  const [stepY, stepX] = farSide(position);
  const inRow = position ^ 1;
  const inColumn = position ^ 2;
  const sample = (at: number, y: number, x: number): number => sampleAt(mosaic, plan, y, x, at);
  const beside = sample(inRow, row, column) + sample(inRow, row, column - stepX);
  const above = sample(inColumn, row, column) + sample(inColumn, row - stepY, column);
  return (beside + above) / 4;
}

/** Steps to the blocks that lie across the centre from a corner of the block. */
function farSide(position: number): readonly [y: number, x: number] {
  return [(position & 2) === 0 ? 1 : -1, (position & 1) === 0 ? 1 : -1];
}

/** One sample of a block, black taken off and balanced; blocks beyond the edge are the one at the edge. */
function sampleAt(mosaic: Mosaic, plan: BinPlan, row: number, column: number, position: number): number {
  const blockRow = Math.min((mosaic.heightPx >> 1) - 1, Math.max(0, row));
  const blockColumn = Math.min((mosaic.widthPx >> 1) - 1, Math.max(0, column));
  const y = 2 * blockRow + (position >> 1);
  const x = 2 * blockColumn + (position & 1);
  const value = mosaic.values[y * mosaic.widthPx + x] ?? 0;
  return (value - (plan.black[position] ?? 0)) * (plan.scale[position] ?? 0);
}
