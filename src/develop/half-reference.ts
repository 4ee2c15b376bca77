/**
 * Half-size colour from a mosaic, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * The pixel is the centre of a 2x2 block, and should be what full size reduced by area shows there.
 *
 * 1. Green where a red or blue sample lies is the mean of the two greens beside it, or of the two above and below, or
 *    something between: a direction counts by one over how much it disagrees, squared. It disagrees by what the sample is
 *    off the mean of its two greens, and by half of what these are apart. Across fine lines the mean of all four is a grey that is nowhere,
 *    and what the sample is off it would be shown as colour. Where no direction stands out (`floorAt`) they count alike.
 * 2. Green is the mean of the block's four: two are there, the other two are those of 1, with a quarter of what the colour
 *    lies above its own four neighbours.
 * 3. Red and blue lie in corners, a quarter of a half-size pixel off in opposite directions, which plain binning shows as
 *    coloured edges. What green is higher than they are is averaged among the four nearest, a little wider than bilinear
 *    (4, 2, 2, 1 to 9, 3, 3, 1), since full size's colour is calmer than its light; and is taken off green.
 *
 * The idea of weighing directions is that of demosaic-reference.ts; weights and shares are our own, those that agreed best
 * with full size (test/render/full-size.test.ts) on lines, patches, noise and a photograph. It looks at half of what full
 * size looks at, and lines that slant are where it shows.
 */
import type { Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { BinPlan } from './plan.ts';

/** Balanced camera RGB of the half-size pixel at (row, column), before highlights are looked after. */
export function halfPixel(mosaic: Mosaic, plan: BinPlan, row: number, column: number): Vector3 {
  const [green0, green1] = plan.greenPositions;
  const sample = (position: number, y = row, x = column): number => sampleAt(mosaic, plan, y, x, position);
  const greenOf = (position: number): number => {
    const beside = sample(position, row, column - 1) + sample(position, row, column + 1);
    const above = sample(position, row - 1, column) + sample(position, row + 1, column);
    const detail = sample(position) - (beside + above) / 4;
    return greenAt(mosaic, plan, row, column, position) + detail / 4;
  };
  const green =
    (sample(green0) + sample(green1) + greenOf(plan.redPosition) + greenOf(plan.bluePosition)) / 4;
  const colour = (position: number, saturation: number): number => {
    const lower = atCentre(
      position,
      row,
      column,
      (y, x) => greenAt(mosaic, plan, y, x, position) - sample(position, y, x),
    );
    return Math.min(saturation, green - lower);
  };
  return [
    colour(plan.redPosition, plan.saturation[0]),
    Math.min(plan.saturation[1], green),
    colour(plan.bluePosition, plan.saturation[2]),
  ];
}

/** The mean at the centre of a block from what lies at `position` of it and the blocks on its far sides. */
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
  return (4 * near + 2 * (beside + above) + across) / 9;
}

/** Green where a red or blue sample lies: from beside it, from above and below, or between. */
function greenAt(mosaic: Mosaic, plan: BinPlan, row: number, column: number, position: number): number {
  const [stepY, stepX] = farSide(position);
  const sample = (at: number, y: number, x: number): number => sampleAt(mosaic, plan, y, x, at);
  const own = sample(position, row, column);
  const direction = (one: number, other: number): { readonly mean: number; readonly unlike: number } => {
    const mean = (one + other) / 2;
    return { mean, unlike: Math.abs(own - mean) + Math.abs(one - other) / 2 };
  };
  const inRow = position ^ 1;
  const inColumn = position ^ 2;
  const beside = direction(sample(inRow, row, column), sample(inRow, row, column - stepX));
  const above = direction(sample(inColumn, row, column), sample(inColumn, row - stepY, column));
  const floor = floorAt((beside.mean + above.mean) / 2);
  const weightBeside = 1 / (floor ** 2 + beside.unlike ** 2);
  const weightAbove = 1 / (floor ** 2 + above.unlike ** 2);
  return (weightBeside * beside.mean + weightAbove * above.mean) / (weightBeside + weightAbove);
}

/** What counts as no difference: a tenth of the light, and 0.002 of white, where noise is all there is. */
function floorAt(light: number): number {
  return 0.002 + Math.max(0, light) / 10;
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
