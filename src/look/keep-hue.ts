import type { Vector3 } from '../colour/index.ts';

/**
 * A curve applied to the largest and the smallest channel, while the middle one keeps its place between them: hue (in the
 * sense of which channel leads by how much) is kept where three separate curves would turn orange into yellow, and a colour
 * still goes to white softly, because the shoulder brings the two ends together. (The reference code of the open DNG SDK
 * applies its tone curve the same way.)
 */
export function mapKeepingHue([r, g, b]: Vector3, curve: (value: number) => number): Vector3 {
  const high = Math.max(r, g, b);
  const low = Math.min(r, g, b);
  const highOut = curve(high);
  const lowOut = curve(low);
  const k = high > low ? (highOut - lowOut) / (high - low) : 0;
  return [lowOut + k * (r - low), lowOut + k * (g - low), lowOut + k * (b - low)];
}
