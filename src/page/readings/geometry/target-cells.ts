import type { TargetReadings } from '../../../contract/index.ts';

type Corners = TargetReadings['corners'];
type Patch = TargetReadings['patches'][number];

/** A patch as it lies in the picture: its corners, clockwise from where dark skin lies, shares of the picture. */
export interface TargetCell {
  readonly patch: Patch;
  readonly corners: readonly (readonly [x: number, y: number])[];
  readonly middle: readonly [x: number, y: number];
}

const columns = 6;
const rows = 4;

/** Where the patches of a target lie. `inset`: how much smaller than its cell each is drawn, share of the cell. */
export function targetCells(
  { corners, patches }: Pick<TargetReadings, 'corners' | 'patches'>,
  inset: number,
): TargetCell[] {
  const at = squareToQuad(corners);
  return patches.map((patch) => {
    const [column, row] = [(patch.patch - 1) % columns, Math.floor((patch.patch - 1) / columns)];
    const [left, right] = [(column + inset) / columns, (column + 1 - inset) / columns];
    const [top, bottom] = [(row + inset) / rows, (row + 1 - inset) / rows];
    return {
      patch,
      corners: [at(left, top), at(right, top), at(right, bottom), at(left, bottom)],
      middle: at((column + 0.5) / columns, (row + 0.5) / rows),
    };
  });
}

/**
 * The projective mapping of the unit square onto four corners. P. Heckbert, "Fundamentals of Texture Mapping and Image
 * Warping", 1989, 2.2.3 (square to quadrilateral).
 */
function squareToQuad([p0, p1, p2, p3]: Corners): (u: number, v: number) => readonly [number, number] {
  const [sumX, sumY] = [p0[0] - p1[0] + p2[0] - p3[0], p0[1] - p1[1] + p2[1] - p3[1]];
  const [dx1, dx2] = [p1[0] - p2[0], p3[0] - p2[0]];
  const [dy1, dy2] = [p1[1] - p2[1], p3[1] - p2[1]];
  const determinant = dx1 * dy2 - dx2 * dy1;
  const g = determinant === 0 ? 0 : (sumX * dy2 - dx2 * sumY) / determinant;
  const h = determinant === 0 ? 0 : (dx1 * sumY - sumX * dy1) / determinant;
  const [a, b] = [p1[0] - p0[0] + g * p1[0], p3[0] - p0[0] + h * p3[0]];
  const [d, e] = [p1[1] - p0[1] + g * p1[1], p3[1] - p0[1] + h * p3[1]];
  return (u, v) => {
    const w = g * u + h * v + 1;
    return [(a * u + b * v + p0[0]) / w, (d * u + e * v + p0[1]) / w];
  };
}
