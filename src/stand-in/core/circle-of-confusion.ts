/** Thin-lens blur as kernels of pixels. */
import type { Camera } from './kernels/stage.ts';

/**
 * Diameter of the circle of confusion on the sensor, mm, of a point `depthMm` along the axis, for a thin lens of focal
 * length f and aperture A focused at S: A f |z - S| / (z (S - f)).
 */
export function circleMm(lens: Camera['lens'], depthMm: number): number {
  const { focalMm, apertureMm, focusMm } = lens;
  return (apertureMm * focalMm * Math.abs(depthMm - focusMm)) / (depthMm * (focusMm - focalMm));
}

/** Radii are tabled in steps of this, pixels. */
export const radiusStepPx = 0.02;

/**
 * Kernel radii for circles of radius `k * radiusStepPx` up to `radiusMaxPx`. A kernel is a disc with a rim one pixel wide
 * laid on whole pixels; its radius is chosen so that its variance per axis is that of the lens's disc, a quarter of its
 * radius squared, and `ownVariance` on top for circles of `fromPx` and more.
 */
export function kernelRadii(radiusMaxPx: number, ownVariance: number, fromPx: number): Float32Array {
  const variances = Array.from({ length: Math.ceil(radiusMaxPx / radiusStepPx) + 60 }, (_, k) =>
    varianceOf(k * radiusStepPx),
  );
  let kernel = 0;
  return Float32Array.from({ length: Math.ceil(radiusMaxPx / radiusStepPx) + 1 }, (_, k) => {
    const circle = k * radiusStepPx;
    const wanted = circle ** 2 / 4 + (circle >= fromPx ? ownVariance : 0);
    // Both grow, so the search goes on where it ended.
    while ((variances[kernel + 1] ?? Number.POSITIVE_INFINITY) <= wanted) kernel++;
    return kernel * radiusStepPx;
  });
}

/** Beyond this the sum over pixels is the integral to a hundredth. */
const integralFromPx = 4;

function varianceOf(radius: number): number {
  // Mean of discs with radii from r - 1/2 to r + 1/2, by integration.
  const square = radius * radius;
  if (radius > integralFromPx) return (square * square + square / 2 + 1 / 80) / (4 * (square + 1 / 12));
  const reach = Math.ceil(radius + 0.5);
  let weight = 0;
  let moment = 0;
  for (let y = -reach; y <= reach; y++) {
    for (let x = -reach; x <= reach; x++) {
      const share = Math.min(1, Math.max(0, radius + 0.5 - Math.hypot(x, y)));
      weight += share;
      moment += share * x * x;
    }
  }
  return weight === 0 ? 0 : moment / weight;
}
