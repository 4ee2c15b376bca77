/** 3x3 matrices as nine numbers, row-major. */
export type Matrix3 = readonly number[];

export function multiply3(a: Matrix3, b: Matrix3): number[] {
  return Array.from({ length: 9 }, (_, index) => {
    const row = Math.floor(index / 3);
    const column = index % 3;
    return [0, 1, 2].reduce((sum, k) => sum + (a[row * 3 + k] ?? 0) * (b[k * 3 + column] ?? 0), 0);
  });
}

export function transform3(m: Matrix3, v: readonly number[]): [number, number, number] {
  const row = (index: number): number =>
    [0, 1, 2].reduce((sum, k) => sum + (m[index * 3 + k] ?? 0) * (v[k] ?? 0), 0);
  return [row(0), row(1), row(2)];
}

/** Inverse by cofactors; the matrices here are all far from singular. */
export function invert3(m: Matrix3): number[] {
  const at = (row: number, column: number): number => m[(row % 3) * 3 + (column % 3)] ?? 0;
  const cofactor = (row: number, column: number): number =>
    at(row + 1, column + 1) * at(row + 2, column + 2) - at(row + 1, column + 2) * at(row + 2, column + 1);
  const determinant = [0, 1, 2].reduce((sum, column) => sum + at(0, column) * cofactor(0, column), 0);
  return Array.from({ length: 9 }, (_, index) => cofactor(index % 3, Math.floor(index / 3)) / determinant);
}
