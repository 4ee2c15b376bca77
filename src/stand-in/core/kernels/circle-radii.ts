/** A kernel radius for each pixel from its depth. Kernel; see `core/circle-of-confusion.ts`. */
export interface CirclesInput {
  readonly depth: Float32Array;
  /** 1 where the pixel was gathered from many rays and holds the lens's own blur already. */
  readonly spread: Uint8Array;
  readonly focusMm: number;
  /** Radius of the circle, pixels, at an infinite distance. */
  readonly farRadiusPx: number;
  /** Kernel radius of a circle of radius `index * stepPx`, for pixels of many rays and of one. */
  readonly ofMany: Float32Array;
  readonly ofOne: Float32Array;
  readonly stepPx: number;
}

/** Fills `radius`. */
export function fillRadii(input: CirclesInput, radius: Float32Array): void {
  const { depth, spread, focusMm, farRadiusPx, ofMany, ofOne, stepPx } = input;
  const last = ofOne.length - 1;
  const scale = farRadiusPx / stepPx;
  for (let k = 0; k < depth.length; k++) {
    const z = depth[k];
    const circle = z > 0 ? (scale * (z < focusMm ? focusMm - z : z - focusMm)) / z : last;
    const at = circle < last ? (circle + 0.5) | 0 : last;
    radius[k] = spread[k] === 1 ? ofMany[at] : ofOne[at];
  }
}
