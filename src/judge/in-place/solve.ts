/** A pivot smaller than this share of its entry leaves a direction open. */
const pivotMin = 1e-6;

/**
 * Solves equations that are symmetric and positive by elimination without exchange (Cholesky's L D Lᵀ). Rows in order;
 * both are used up. Null where they leave something open.
 */
export function solvePositive(matrix: Float64Array[], right: Float64Array): Float64Array | null {
  const count = right.length;
  const whole = matrix.map((row, at) => row[at] ?? 0);
  for (let pivot = 0; pivot < count; pivot++) {
    const head = matrix[pivot] ?? right;
    const top = head[pivot] ?? 0;
    if (!(top > pivotMin * (whole[pivot] ?? 0)) || !(top > 0)) return null;
    for (let row = pivot + 1; row < count; row++) {
      const line = matrix[row] ?? right;
      const times = (line[pivot] ?? 0) / top;
      for (let column = pivot; column < count; column++) {
        line[column] = (line[column] ?? 0) - times * (head[column] ?? 0);
      }
      right[row] = (right[row] ?? 0) - times * (right[pivot] ?? 0);
    }
  }
  for (let row = count - 1; row >= 0; row--) {
    const line = matrix[row] ?? right;
    let rest = right[row] ?? 0;
    for (let column = row + 1; column < count; column++) rest -= (line[column] ?? 0) * (right[column] ?? 0);
    right[row] = rest / (line[row] ?? 1);
  }
  return right;
}
