/**
 * Mean over a square of (2 * radius + 1)² values, by running sums; the border's value goes on outside. `out` may be
 * `plane`; `scratch`: as many values.
 */
export function boxBlur(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  radius: number,
  scratch: Float32Array,
  out: Float32Array,
): void {
  const count = widthPx * heightPx;
  if (plane.length < count || scratch.length < count || out.length < count) {
    throw new RangeError('boxBlur: sizes differ');
  }
  const share = 1 / (2 * radius + 1);
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    const end = start + widthPx - 1;
    let sum = plane[start] * (radius + 1);
    for (let k = 1; k <= radius; k++) sum += plane[Math.min(end, start + k)];
    for (let at = start; at <= end; at++) {
      scratch[at] = sum * share;
      sum += plane[Math.min(end, at + radius + 1)] - plane[Math.max(start, at - radius)];
    }
  }
  // Down the columns a row at a time, so that memory is walked in order.
  const sums = new Float64Array(widthPx);
  const bottom = (heightPx - 1) * widthPx;
  for (let column = 0; column < widthPx; column++) sums[column] = scratch[column] * (radius + 1);
  for (let k = 1; k <= radius; k++) {
    const start = Math.min(bottom, k * widthPx);
    for (let column = 0; column < widthPx; column++) sums[column] += scratch[start + column];
  }
  for (let row = 0; row < heightPx; row++) {
    const to = row * widthPx;
    const coming = Math.min(bottom, (row + radius + 1) * widthPx);
    const going = Math.max(0, (row - radius) * widthPx);
    for (let column = 0; column < widthPx; column++) {
      out[to + column] = sums[column] * share;
      sums[column] += scratch[coming + column] - scratch[going + column];
    }
  }
}

/** Smoothing by 1 2 1 both ways (variance a half of a pixel squared); the border's value goes on outside. As above. */
export function binomialBlur(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  scratch: Float32Array,
  out: Float32Array,
): void {
  const count = widthPx * heightPx;
  if (plane.length < count || scratch.length < count || out.length < count) {
    throw new RangeError('binomialBlur: sizes differ');
  }
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    const end = start + widthPx - 1;
    for (let at = start; at <= end; at++) {
      const before = plane[at > start ? at - 1 : at];
      const after = plane[at < end ? at + 1 : at];
      scratch[at] = 0.25 * (before + after) + 0.5 * plane[at];
    }
  }
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    const above = row > 0 ? start - widthPx : start;
    const below = row < heightPx - 1 ? start + widthPx : start;
    for (let column = 0; column < widthPx; column++) {
      out[start + column] =
        0.25 * (scratch[above + column] + scratch[below + column]) + 0.5 * scratch[start + column];
    }
  }
}
