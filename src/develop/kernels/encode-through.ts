/**
 * Encodes `count` linear samples to codes through a curve: `curve[i]` is the code for light (i / last)^2, not rounded.
 * Light outside 0 … 1, and what is no number, is held at the ends.
 */
export function encodeThrough(
  linear: Float32Array,
  count: number,
  curve: Float32Array,
  out: Uint8Array | Uint16Array,
  outOffset: number,
): void {
  if (linear.length < count || out.length < outOffset + count || curve.length < 2) {
    throw new RangeError('encodeThrough: sizes differ');
  }
  const last = curve.length - 1;
  for (let i = 0; i < count; i++) {
    const value = linear[i];
    const position = value > 0 ? (value < 1 ? Math.sqrt(value) * last : last) : 0;
    const index = Math.min(last - 1, position | 0);
    const before = curve[index];
    out[outOffset + i] = before + (curve[index + 1] - before) * (position - index) + 0.5;
  }
}
