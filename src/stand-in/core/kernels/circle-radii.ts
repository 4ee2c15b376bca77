/** A kernel radius for each pixel from its depth. Kernel; see `core/circle-of-confusion.ts`. */
export interface CirclesInput {
  readonly depth: Float32Array;
  /** 1 where the pixel was gathered from many rays and holds the lens's own blur already. */
  readonly spread: Uint8Array;
  readonly focusMm: number;
  /** Radius of the circle, pixels, at an infinite distance. */
  readonly farRadiusPx: number;
  readonly radiusMaxPx: number;
  /** Variance of a disc of radius `index * stepPx`, ascending. */
  readonly variances: Float64Array;
  readonly stepPx: number;
  /** Variance of a pixel and the lens, for pixels seen by one ray. */
  readonly ownVariance: number;
  /** Below this radius one ray is left as it is. */
  readonly softFromPx: number;
}

/** Fills `radius`. */
export function fillRadii(input: CirclesInput, radius: Float32Array): void {
  const { depth, spread, focusMm, farRadiusPx, radiusMaxPx, variances, stepPx, ownVariance, softFromPx } =
    input;
  const last = variances.length - 1;
  for (let k = 0; k < depth.length; k++) {
    const z = depth[k];
    const circle = Math.min(radiusMaxPx, z > 0 ? (farRadiusPx * Math.abs(z - focusMm)) / z : farRadiusPx);
    const wanted = circle * circle * 0.25 + (spread[k] === 0 && circle >= softFromPx ? ownVariance : 0);
    // Close to the root of four times the variance; a few steps down or up the table find it.
    let at = Math.min(last, Math.floor((2 * Math.sqrt(wanted)) / stepPx));
    while (at > 0 && variances[at] > wanted) at--;
    while (at < last && variances[at + 1] <= wanted) at++;
    radius[k] = at * stepPx;
  }
}
