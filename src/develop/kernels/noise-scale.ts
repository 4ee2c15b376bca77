/**
 * The generalised Anscombe transform, on which noise of `shot` x light + `read` has a standard deviation of 1 everywhere:
 * f(x) = 2 / shot * sqrt(shot x + 3/8 shot^2 + read). Below 0, where there is only noise, its tangent. Reference: `stabilise`
 * in local/noise-scale.ts.
 *
 * Splits `count` pixels of interleaved balanced RGB into lightness (r + 2 g + b) / 4 and the colours r - g and b - g of that
 * scale.
 */
export function splitDetail(
  rgb: Float32Array,
  count: number,
  shot: number,
  read: number,
  lightness: Float32Array,
  red: Float32Array,
  blue: Float32Array,
): void {
  if (rgb.length < count * 3 || Math.min(lightness.length, red.length, blue.length) < count)
    throw new RangeError('splitDetail: sizes differ');
  const foot = 0.375 * shot * shot + read;
  const gain = 2 / shot;
  const atZero = gain * Math.sqrt(foot);
  const slope = 1 / Math.sqrt(foot);
  for (let i = 0, at = 0; i < count; i++, at += 3) {
    const r = rgb[at];
    const g = rgb[at + 1];
    const b = rgb[at + 2];
    const fr = r > 0 ? gain * Math.sqrt(shot * r + foot) : atZero + slope * r;
    const fg = g > 0 ? gain * Math.sqrt(shot * g + foot) : atZero + slope * g;
    const fb = b > 0 ? gain * Math.sqrt(shot * b + foot) : atZero + slope * b;
    lightness[i] = (fr + 2 * fg + fb) * 0.25;
    red[i] = fr - fg;
    blue[i] = fb - fg;
  }
}

/** The way back; each channel times `lift` of its pixel, which leaves colour as it is. */
export function mergeDetail(
  rgb: Float32Array,
  count: number,
  shot: number,
  read: number,
  lightness: Float32Array,
  red: Float32Array,
  blue: Float32Array,
  lift: Float32Array,
): void {
  if (rgb.length < count * 3 || Math.min(lightness.length, red.length, blue.length, lift.length) < count)
    throw new RangeError('mergeDetail: sizes differ');
  const foot = 0.375 * shot * shot + read;
  const perGain = shot / 2;
  const perShot = 1 / shot;
  const atZero = Math.sqrt(foot) / perGain;
  const root = Math.sqrt(foot);
  for (let i = 0, at = 0; i < count; i++, at += 3) {
    const k = lift[i];
    const green = lightness[i] - (red[i] + blue[i]) * 0.25;
    const fr = (green + red[i]) * k;
    const fg = green * k;
    const fb = (green + blue[i]) * k;
    rgb[at] = fr > atZero ? ((fr * perGain) ** 2 - foot) * perShot : (fr - atZero) * root;
    rgb[at + 1] = fg > atZero ? ((fg * perGain) ** 2 - foot) * perShot : (fg - atZero) * root;
    rgb[at + 2] = fb > atZero ? ((fb * perGain) ** 2 - foot) * perShot : (fb - atZero) * root;
  }
}
