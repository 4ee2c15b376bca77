/**
 * Half-size colour from a mosaic, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * The pixel is the centre of a 2x2 block, and should be what full size reduced by area shows there. Green is the mean of
 * the block's four: two are there; at red and blue it is the mean of the four greens around, corrected by half of what the
 * colour lies above its own four neighbours. Red and blue lie in corners, a quarter of a half-size pixel off in opposite
 * directions, which plain binning shows as coloured edges. What green is higher than they are is averaged among the four
 * nearest, a little wider than bilinear (4, 2, 2, 1 to 9, 3, 3, 1), since full size's colour is calmer than its light; and
 * is taken off green half way between sharp and bilinear. All this agrees best with full size
 * (test/render/full-size.test.ts): on a real raw mean dE00 0.9.
 */
import type { Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { BinPlan } from './plan.ts';

type Weights = readonly [near: number, besideAndAbove: number, across: number];

const bilinear: Weights = [9 / 16, 3 / 16, 1 / 16];
const wider: Weights = [4 / 9, 2 / 9, 1 / 9];

/** Balanced camera RGB of the half-size pixel at (row, column), before highlights are looked after. */
export function halfPixel(mosaic: Mosaic, plan: BinPlan, row: number, column: number): Vector3 {
  const [green0, green1] = plan.greenPositions;
  const sample = (position: number, y = row, x = column): number => sampleAt(mosaic, plan, y, x, position);
  const greens = [sample(green0), sample(green1), ...[plan.redPosition, plan.bluePosition].map(greenOf)];
  const green = greens.reduce((sum, value) => sum + value, 0) / 4;
  function greenOf(position: number): number {
    const beside = sample(position, row, column - 1) + sample(position, row, column + 1);
    const above = sample(position, row - 1, column) + sample(position, row + 1, column);
    const detail = sample(position) - (beside + above) / 4;
    return greenAt(mosaic, plan, row, column, position) + detail / 2;
  }
  const colour = (position: number, saturation: number): number => {
    const greenThere = (y: number, x: number): number => greenAt(mosaic, plan, y, x, position);
    const lower =
      atCentre(wider, position, row, column, greenThere) -
      atCentre(wider, position, row, column, (y, x) => sample(position, y, x));
    const light = (green + atCentre(bilinear, position, row, column, greenThere)) / 2;
    return Math.min(saturation, light - lower);
  };
  return [
    colour(plan.redPosition, plan.saturation[0]),
    Math.min(plan.saturation[1], green),
    colour(plan.bluePosition, plan.saturation[2]),
  ];
}

/** The mean at the centre of a block from what lies at `position` of it and the blocks on its far sides. */
function atCentre(
  weights: Weights,
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
  return weights[0] * near + weights[1] * (beside + above) + weights[2] * across;
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
