/** Adds `sum.length` samples of `strip` from `offset` on, times `weight`, to `sum`; `fresh` starts the sum with them. */
export function addRow(
  strip: Float32Array,
  offset: number,
  weight: number,
  fresh: boolean,
  sum: Float32Array,
): void {
  const count = sum.length;
  if (strip.length < offset + count) throw new RangeError('addRow: sizes differ');
  if (fresh) {
    for (let i = 0; i < count; i++) sum[i] = strip[offset + i] * weight;
    return;
  }
  let i = 0;
  // Four at a time take half as long as one at a time (V8 of Node 20).
  for (; i + 3 < count; i += 4) {
    const at = offset + i;
    sum[i] += strip[at] * weight;
    sum[i + 1] += strip[at + 1] * weight;
    sum[i + 2] += strip[at + 2] * weight;
    sum[i + 3] += strip[at + 3] * weight;
  }
  for (; i < count; i++) sum[i] += strip[offset + i] * weight;
}

/**
 * A row of interleaved RGB reduced to the means over equal stretches of it, border pixels counted by the share of them
 * that lies inside, times `gain`.
 */
export function averageRow(
  row: Float32Array,
  widthPx: number,
  gain: number,
  out: Float32Array,
  outWidthPx: number,
): void {
  if (row.length < widthPx * 3 || out.length < outWidthPx * 3)
    throw new RangeError('averageRow: sizes differ');
  const perOut = widthPx / outWidthPx;
  const weight = gain / perOut;
  for (let column = 0; column < outWidthPx; column++) {
    const left = column * perOut;
    const right = Math.min(widthPx, left + perOut);
    const first = Math.floor(left);
    const last = Math.min(widthPx, Math.ceil(right)) - 1;
    let at = first * 3;
    let share = Math.min(first + 1, right) - left;
    let r = row[at] * share;
    let g = row[at + 1] * share;
    let b = row[at + 2] * share;
    for (let x = first + 1; x < last; x++) {
      at += 3;
      r += row[at];
      g += row[at + 1];
      b += row[at + 2];
    }
    if (last > first) {
      at += 3;
      share = right - last;
      r += row[at] * share;
      g += row[at + 1] * share;
      b += row[at + 2] * share;
    }
    out[column * 3] = r * weight;
    out[column * 3 + 1] = g * weight;
    out[column * 3 + 2] = b * weight;
  }
}
