/**
 * One row of white noise of full-size row `y`, pixels `x0` … `x0 + count - 1`, filtered along the row into `out`: every
 * `step`-th pixel is written, `taps` (an odd number, or even for pairs of pixels) lie from `x0 + i step - before` on.
 * Reference: `grainField` in local/grain-reference.ts. `white` is scratch.
 */
export function grainLine(
  seed: number,
  y: number,
  x0: number,
  count: number,
  step: number,
  before: number,
  taps: Float64Array,
  white: Float32Array,
  out: Float32Array,
  outOffset: number,
): void {
  const needed = (count - 1) * step + taps.length;
  if (white.length < needed || out.length < outOffset + count)
    throw new RangeError('grainLine: sizes differ');
  const start = x0 - before;
  const rowSeed = (seed ^ Math.imul(y, 0x85ebca77)) | 0;
  for (let i = 0; i < needed; i++) white[i] = whiteNoise(rowSeed, start + i);
  const length = taps.length;
  for (let i = 0; i < count; i++) {
    const from = i * step;
    let sum = 0;
    for (let k = 0; k < length; k++) sum += taps[k] * white[from + k];
    out[outOffset + i] = sum;
  }
}

/**
 * A number of mean 0 and standard deviation 1 that is always the same for a place: the four bytes of a hash, added up, are
 * nearly normal, and any sum of several is. The hash is the finalizer of MurmurHash3 (A. Appleby, public domain).
 */
export function whiteNoise(rowSeed: number, x: number): number {
  let h = rowSeed ^ Math.imul(x, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  h ^= h >>> 16;
  const sum = (h & 255) + ((h >>> 8) & 255) + ((h >>> 16) & 255) + (h >>> 24);
  // Four even bytes: mean 510, variance 4 (256^2 - 1) / 12.
  return (sum - 510) * 0.006765875;
}

/**
 * Lays a field of grain on `count` pixels of display-linear RGB. `density` is the field's strength; `weights` samples what of
 * it each light takes, evenly in the root of luminance 0 … 1. Reference: `grainFactor` in local/grain-reference.ts.
 */
export function layGrain(
  rgb: Float32Array,
  rgbOffset: number,
  field: Float32Array,
  fieldOffset: number,
  count: number,
  density: number,
  weights: Float32Array,
  luminance: Float64Array,
): void {
  if (rgb.length < rgbOffset + count * 3 || field.length < fieldOffset + count || luminance.length !== 3)
    throw new RangeError('layGrain: sizes differ');
  const last = weights.length - 1;
  const exponent = -Math.LN10 * density;
  const r = luminance[0];
  const g = luminance[1];
  const b = luminance[2];
  for (let i = 0, at = rgbOffset; i < count; i++, at += 3) {
    const light = r * rgb[at] + g * rgb[at + 1] + b * rgb[at + 2];
    if (!(light > 0)) continue;
    const position = Math.min(1, Math.sqrt(light)) * last;
    const weight = weights[(position + 0.5) | 0];
    const factor = Math.exp(exponent * weight * field[fieldOffset + i]);
    rgb[at] *= factor;
    rgb[at + 1] *= factor;
    rgb[at + 2] *= factor;
  }
}
