import type { Size } from '../image/index.ts';

/**
 * Factor on scene light at `r` half diagonals from the picture's middle, for `falloffEv` stops at its corners. A lens without
 * vignetting darkens by cos^4 of the angle from its axis (the law of illumination of every book on optics; from memory); the
 * tangent of that angle grows with r: cos^4 = 1 / (1 + k r^2)^2, and k is such that the corner has its stops.
 */
export function falloffGain(falloffEv: number, r: number): number {
  const gain = (1 + falloffSteepness(falloffEv) * r * r) ** 2;
  return falloffEv < 0 ? 1 / gain : gain;
}

/** k of {@link falloffGain}. */
export function falloffSteepness(falloffEv: number): number {
  return 2 ** (Math.abs(falloffEv) / 2) - 1;
}

/** Half the diagonal of a picture, px. */
export function halfDiagonalPx({ widthPx, heightPx }: Size): number {
  return Math.hypot(widthPx, heightPx) / 2;
}
