/** Three numbers: a colour, a tristimulus value, a cone response. */
export type Vector3 = readonly [number, number, number];

/** A 3 x 3 matrix, nine numbers in row order. */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];

export const identityMatrix: Matrix3 = [1, 0, 0, 0, 1, 0, 0, 0, 1];

/** Nine finite numbers in row order as a matrix; null for anything else, such as a list out of a damaged file. */
export function parseMatrix(numbers: readonly number[]): Matrix3 | null {
  const [a, b, c, d, e, f, g, h, i] = numbers;
  if (numbers.length !== 9 || !numbers.every(Number.isFinite)) return null;
  if (a === undefined || b === undefined || c === undefined || d === undefined || e === undefined)
    return null;
  if (f === undefined || g === undefined || h === undefined || i === undefined) return null;
  return [a, b, c, d, e, f, g, h, i];
}

/** `matrix` times the column `v`. */
export function applyMatrix(matrix: Matrix3, v: Vector3): Vector3 {
  const [a, b, c, d, e, f, g, h, i] = matrix;
  const [x, y, z] = v;
  return [a * x + b * y + c * z, d * x + e * y + f * z, g * x + h * y + i * z];
}

/** `left` times `right`: the matrix that does `right` first. */
export function multiplyMatrices(left: Matrix3, right: Matrix3): Matrix3 {
  const [a, b, c, d, e, f, g, h, i] = right;
  const column0 = applyMatrix(left, [a, d, g]);
  const column1 = applyMatrix(left, [b, e, h]);
  const column2 = applyMatrix(left, [c, f, i]);
  return matrixOfColumns(column0, column1, column2);
}

export function matrixOfColumns(first: Vector3, second: Vector3, third: Vector3): Matrix3 {
  return [first[0], second[0], third[0], first[1], second[1], third[1], first[2], second[2], third[2]];
}

export function diagonalMatrix(v: Vector3): Matrix3 {
  return [v[0], 0, 0, 0, v[1], 0, 0, 0, v[2]];
}

/**
 * The inverse by cofactors, or null where there is none: a camera matrix read out of a file may be anything.
 * "None" is a determinant below 1e-12 of the product of the row lengths.
 */
export function invertMatrix(matrix: Matrix3): Matrix3 | null {
  const [a, b, c, d, e, f, g, h, i] = matrix;
  const cofactor0 = e * i - f * h;
  const cofactor1 = f * g - d * i;
  const cofactor2 = d * h - e * g;
  const determinant = a * cofactor0 + b * cofactor1 + c * cofactor2;
  const scale = Math.hypot(a, b, c) * Math.hypot(d, e, f) * Math.hypot(g, h, i);
  if (!(Math.abs(determinant) > 1e-12 * scale)) return null;
  const k = 1 / determinant;
  return [
    cofactor0 * k,
    (c * h - b * i) * k,
    (b * f - c * e) * k,
    cofactor1 * k,
    (a * i - c * g) * k,
    (c * d - a * f) * k,
    cofactor2 * k,
    (b * g - a * h) * k,
    (a * e - b * d) * k,
  ];
}

/** The inverse of a matrix that is known to have one, such as those of the standards. Throws where that is not so. */
export function invertKnownMatrix(matrix: Matrix3): Matrix3 {
  const inverse = invertMatrix(matrix);
  if (inverse === null) throw new RangeError(`this matrix has no inverse: ${matrix.join(' ')}`);
  return inverse;
}
