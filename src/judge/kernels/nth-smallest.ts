/**
 * The value that would lie at place `at` were the first `count` values sorted upwards, `0 <= at < count`; they are left in
 * another order (Hoare, Algorithm 65: Find, Communications of the ACM 4, 1961). A median needs no more, and sorting takes
 * ten times as long. None may be NaN.
 */
export function nthSmallest(values: Float32Array | Float64Array, count: number, at: number): number {
  if (!(at >= 0 && at < count && count <= values.length)) throw new RangeError('nthSmallest: no such place');
  let left = 0;
  let right = count - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1];
    let low = left;
    let high = right;
    while (low <= high) {
      while (values[low] < pivot) low++;
      while (values[high] > pivot) high--;
      if (low > high) break;
      const swapped = values[low];
      values[low++] = values[high];
      values[high--] = swapped;
    }
    // Between the two everything is the pivot.
    if (at <= high) right = high;
    else if (at >= low) left = low;
    else break;
  }
  return values[at];
}
