import { applyMatrix, deltaE2000, type Matrix3, type Vector3, xyzToLab } from '../../colour/index.ts';
import { leastSquares } from './homography.ts';

/** Light of a patch beside what it should be. */
export interface ColourPair {
  readonly light: Vector3;
  /** XYZ D50. */
  readonly xyz: Vector3;
}

/**
 * The matrix from light to XYZ with the least squares, each patch in units of its own lightness, so that bright ones do not
 * outweigh the dark. Null where the colours do not span space.
 */
export function fitColours(pairs: readonly ColourPair[]): Matrix3 | null {
  const weighted = pairs.map(({ light, xyz }) => {
    const weight = patchWeight(xyz);
    return { row: light.map((value) => value * weight), right: xyz.map((value) => value * weight) };
  });
  const rows = weighted.map(({ row }) => row);
  const line = (index: number): number[] | null =>
    leastSquares(
      rows,
      weighted.map(({ right }) => right[index] ?? 0),
    );
  const [x, y, z] = [line(0), line(1), line(2)];
  if (x === null || y === null || z === null) return null;
  const [a = 0, b = 0, c = 0] = x;
  const [d = 0, e = 0, f = 0] = y;
  const [g = 0, h = 0, i = 0] = z;
  return [a, b, c, d, e, f, g, h, i];
}

/** Errors of L* for an error of XYZ are as 1 / Y^(2/3); the small addend keeps black from leading. */
export function patchWeight([, Y]: Vector3): number {
  return 1 / (Y + 0.02) ** (2 / 3);
}

/** CIEDE2000 of each pair under a matrix. */
export function colourErrors(matrix: Matrix3, pairs: readonly ColourPair[]): readonly number[] {
  return pairs.map(({ light, xyz }) => deltaE2000(xyzToLab(applyMatrix(matrix, light)), xyzToLab(xyz)));
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}
