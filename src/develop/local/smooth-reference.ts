/**
 * Noise smoothing of a plane, one pixel at a time: obvious, slow, and the documentation of the kernel.
 *
 * 1. The plane is taken apart into levels by filters with holes (M. Holschneider et al. 1989; J.-L. Starck, F. Murtagh:
 *    Astronomical image and data analysis, 2nd ed. 2006, chapter 2): each level is what the B3 spline (1 4 6 4 1) / 16, its
 *    taps 2^j apart, takes away from the one before. All levels and what is left add up to the plane.
 * 2. A difference counts by the mean square S^2 of the nine around it, 2^j apart: it is multiplied by 1 - T^4 / S^4, or
 *    nothing where S < T (the paper: T^2 / S^2, which takes more of edges than a picture should lose: G. Y. Chen, T. D. Bui, A. Krzyzak: Image denoising with neighbour dependency and customized wavelet
 *    and threshold, Pattern Recognition 38, 2005, DOI 10.1016/j.patcog.2004.07.009; from memory). An edge stands far above
 *    the noise, so nearly all of it stays; what is even goes.
 *
 * Beyond its edges a plane is mirrored at its first and last sample.
 */
import { reflected } from '../reflected-reference.ts';

export type Plane = (row: number, column: number) => number;

/** `limits[j]` is T of level j. */
export function smoothReference(
  plane: readonly (readonly number[])[],
  limits: readonly number[],
): readonly (readonly number[])[] {
  const height = plane.length;
  const width = plane[0]?.length ?? 0;
  const reader =
    (values: readonly (readonly number[])[]): Plane =>
    (row, column) =>
      values[reflected(row, height)]?.[reflected(column, width)] ?? 0;
  const mapped = (of: Plane): readonly (readonly number[])[] =>
    plane.map((line, row) => line.map((_, column) => of(row, column)));

  let rest = plane;
  let kept = mapped(() => 0);
  limits.forEach((limit, level) => {
    const step = 2 ** level;
    const at = reader(rest);
    const spline = [1, 4, 6, 4, 1].map((weight) => weight / 16);
    const next = mapped((row, column) =>
      sumOver(
        spline,
        (down, i) =>
          down * sumOver(spline, (along, k) => along * at(row + (i - 2) * step, column + (k - 2) * step)),
      ),
    );
    const nextAt = reader(next);
    const detail = mapped((row, column) => at(row, column) - nextAt(row, column));
    const detailAt = reader(detail);
    const near = [-step, 0, step];
    const before = reader(kept);
    kept = mapped((row, column) => {
      const square = sumOver(near, (y) => sumOver(near, (x) => detailAt(row + y, column + x) ** 2)) / 9;
      const share = square > limit ** 2 ? 1 - (limit ** 2 / square) ** 2 : 0;
      return before(row, column) + share * detailAt(row, column);
    });
    rest = next;
  });
  const left = reader(rest);
  const sum = reader(kept);
  return mapped((row, column) => sum(row, column) + left(row, column));
}

function sumOver(items: readonly number[], of: (item: number, index: number) => number): number {
  return items.reduce((sum, item, index) => sum + of(item, index), 0);
}
