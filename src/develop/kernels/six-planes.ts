/**
 * Steps of the demosaic of 6 x 6 mosaics, on planes of `rows` x `stride` samples whose first one lies at (`phaseRow`,
 * `phaseColumn`) of the repeat. `inset` is how many rows and columns at each border are left as they are. References:
 * `layouts/six-reference.ts`.
 */

/** Sums of taps: `out` at a place is what the list of its phase says of `plane`. */
export function sumTaps(
  plane: Float32Array,
  rows: number,
  stride: number,
  inset: number,
  phaseRow: number,
  phaseColumn: number,
  starts: Int32Array,
  offsets: Int32Array,
  weights: Float64Array,
  out: Float32Array,
): void {
  if (plane.length < rows * stride || out.length < rows * stride || starts.length !== 37) {
    throw new RangeError('sumTaps: sizes differ');
  }
  for (let row = inset; row < rows - inset; row++) {
    const phases = ((row + phaseRow) % 6) * 6;
    for (let column = inset; column < stride - inset; column++) {
      const place = phases + ((column + phaseColumn) % 6);
      const at = row * stride + column;
      const end = starts[place + 1];
      let sum = 0;
      for (let tap = starts[place]; tap < end; tap++) sum += weights[tap] * plane[at + offsets[tap]];
      out[at] = sum;
    }
  }
}

/** The size of the second difference along a direction; `step` is 1 along rows, the stride along columns. */
export function bendOf(
  plane: Float32Array,
  rows: number,
  stride: number,
  inset: number,
  step: number,
  out: Float32Array,
): void {
  if (plane.length < rows * stride || out.length < rows * stride || inset < 1) {
    throw new RangeError('bendOf: sizes differ');
  }
  for (let row = inset; row < rows - inset; row++) {
    for (let at = row * stride + inset; at < row * stride + stride - inset; at++) {
      out[at] = Math.abs(plane[at - step] + plane[at + step] - 2 * plane[at]);
    }
  }
}

/** One pass of a symmetric blur of seven taps; `step` as above. */
export function blurSeven(
  plane: Float32Array,
  rows: number,
  stride: number,
  insetRows: number,
  insetColumns: number,
  step: number,
  weights: Float64Array,
  out: Float32Array,
): void {
  if (plane.length < rows * stride || out.length < rows * stride || weights.length !== 4) {
    throw new RangeError('blurSeven: sizes differ');
  }
  for (let row = insetRows; row < rows - insetRows; row++) {
    for (let at = row * stride + insetColumns; at < row * stride + stride - insetColumns; at++) {
      out[at] =
        weights[0] * plane[at] +
        weights[1] * (plane[at - step] + plane[at + step]) +
        weights[2] * (plane[at - 2 * step] + plane[at + 2 * step]) +
        weights[3] * (plane[at - 3 * step] + plane[at + 3 * step]);
    }
  }
}

/** Green told by rows and by columns, each weighted by one over its squared unrest; and what the sample lies above that. */
export function joinGreen(
  root: Float32Array,
  byRow: Float32Array,
  byColumn: Float32Array,
  unrestInRow: Float32Array,
  unrestInColumn: Float32Array,
  count: number,
  floor: number,
  green: Float32Array,
  above: Float32Array,
): void {
  if (root.length < count || green.length < count || above.length < count) {
    throw new RangeError('joinGreen: sizes differ');
  }
  for (let at = 0; at < count; at++) {
    const row = 1 / (floor + unrestInRow[at] * unrestInRow[at]);
    const column = 1 / (floor + unrestInColumn[at] * unrestInColumn[at]);
    const value = (row * byRow[at] + column * byColumn[at]) / (row + column);
    green[at] = value;
    above[at] = root[at] - value;
  }
}
