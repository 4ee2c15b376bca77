/**
 * Marks the values that lie beyond `threshold` with all their neighbours within `radius` to the same side: 1 above, 2 below,
 * else 0. What is no number lies beyond nothing, and neither does the border.
 */
export function agreeAround(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  threshold: number,
  radius: number,
  out: Uint8Array,
): void {
  const count = widthPx * heightPx;
  if (plane.length < count || out.length < count || radius < 0)
    throw new RangeError('agreeAround: sizes differ');
  out.fill(0, 0, count);
  for (let row = radius; row < heightPx - radius; row++) {
    for (let column = radius; column < widthPx - radius; column++) {
      const at = row * widthPx + column;
      const sign = plane[at] > threshold ? 1 : plane[at] < -threshold ? -1 : 0;
      if (sign === 0) continue;
      let agrees = true;
      for (let y = -radius; y <= radius && agrees; y++) {
        const start = at + y * widthPx - radius;
        for (let k = start; k <= start + 2 * radius; k++) if (!(plane[k] * sign > threshold)) agrees = false;
      }
      if (agrees) out[at] = sign > 0 ? 1 : 2;
    }
  }
}
