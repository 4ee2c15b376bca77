import type { Vector3 } from '../colour/index.ts';

/**
 * A colour outside 0 … 1 is drawn towards the grey of its own luminance until it fits: luminance stays, hue stays in
 * linear light, only chroma gives way. `luminance` are the weights of the space's channels.
 */
export function fitGamut([r, g, b]: Vector3, luminance: Vector3): Vector3 {
  const high = Math.max(r, g, b);
  const low = Math.min(r, g, b);
  if (low >= 0 && high <= 1) return [r, g, b];
  const Y = Math.min(1, Math.max(0, luminance[0] * r + luminance[1] * g + luminance[2] * b));
  const keepLow = low < 0 ? Y / (Y - low) : 1;
  const keepHigh = high > 1 ? (1 - Y) / (high - Y) : 1;
  const keep = Math.min(keepLow, keepHigh);
  return [Y + keep * (r - Y), Y + keep * (g - Y), Y + keep * (b - Y)];
}
