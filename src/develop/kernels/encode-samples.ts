/**
 * Encodes `count` linear samples into bytes through a table over 0 … 1 in 65,536 even steps; values outside are held at
 * the ends. The result is within 0.05 of a code of exact rounding (12.92 x 255 / 65535), so at most 1 code off.
 */
export function encodeSamples8(
  linear: Float32Array,
  count: number,
  table: Uint8Array,
  out: Uint8Array,
  outOffset: number,
): void {
  if (linear.length < count || out.length < outOffset + count || table.length !== 65_536) {
    throw new RangeError('encodeSamples8: sizes differ');
  }
  for (let i = 0; i < count; i++) {
    const value = linear[i];
    // NaN fails both comparisons' complements and must not index the table.
    const position = value > 0 ? (value < 1 ? (value * 65_535 + 0.5) | 0 : 65_535) : 0;
    out[outOffset + i] = table[position];
  }
}

/** Linear samples to 16 bits, 65,535 = 1, rounded to the nearest, held at the ends. */
export function encodeSamples16(
  linear: Float32Array,
  count: number,
  out: Uint16Array,
  outOffset: number,
): void {
  if (linear.length < count || out.length < outOffset + count)
    throw new RangeError('encodeSamples16: sizes differ');
  for (let i = 0; i < count; i++) {
    const value = linear[i];
    out[outOffset + i] = value > 0 ? (value < 1 ? (value * 65_535 + 0.5) | 0 : 65_535) : 0;
  }
}

/** Multiplies `count` pixels of interleaved RGB by a 3x3 matrix in row order, in place. */
export function multiplyPixels(rgb: Float32Array, count: number, matrix: Float64Array): void {
  if (rgb.length < count * 3 || matrix.length !== 9) throw new RangeError('multiplyPixels: sizes differ');
  const [a, b, c, d, e, f, g, h, k] = matrix;
  const end = count * 3;
  for (let i = 0; i < end; i += 3) {
    const x = rgb[i];
    const y = rgb[i + 1];
    const z = rgb[i + 2];
    rgb[i] = a * x + b * y + c * z;
    rgb[i + 1] = d * x + e * y + f * z;
    rgb[i + 2] = g * x + h * y + k * z;
  }
}
