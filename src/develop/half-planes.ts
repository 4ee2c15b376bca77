import { planeMargin } from './kernels/half-rows.ts';
import type { BinPlan } from './plan.ts';

/** Positions in the order of the planes: red, green in red's row, green in red's column, blue (across from red). */
export function planeOrder({ redPosition }: BinPlan): readonly number[] {
  return [redPosition, redPosition ^ 1, redPosition ^ 2, redPosition ^ 3];
}

/** Planes of half size: those of `planeOrder`, then what green is higher than red and than blue. */
export const halfPlanes = 6;

/** Samples of one plane for `rows` rows of half size: two rows more above and below, a margin at the sides. */
export function halfPlaneSamples(outWidth: number, rows: number): number {
  return (outWidth + 2 * planeMargin) * (rows + 4);
}
