import { normalShare } from '../kernels/fit-edge.ts';
import type { GaussEdge, riseEnds } from './edge-response.ts';

/** How the light rises across an edge, from dark to bright; of its full height. */
export interface EdgeRise {
  readonly stepPx: number;
  /** An odd number, the middle one at the edge; NaN where no sample lay. */
  readonly heights: Float64Array;
  readonly tenPx: number;
  readonly ninetyPx: number;
}

/**
 * The profile as it was measured: what the samples leave over, put back onto the fitted Gaussian. `rest`, `counts`: as
 * `foldEdge` gives them. An edge that falls is told the other way round.
 */
export function edgeRise(
  { sigmaPx, rise }: GaussEdge,
  rest: Float64Array,
  counts: Float64Array,
  binPx: number,
  { beforePx, behindPx }: ReturnType<typeof riseEnds>,
): EdgeRise {
  const middle = (rest.length - 1) / 2;
  const heights = rest.map((left, bin) => {
    if (counts[bin] === 0) return Number.NaN;
    const t = ((bin - middle) * binPx) / sigmaPx;
    return normalShare(t, Math.exp(-0.5 * t * t)) + left / rise;
  });
  if (rise >= 0) return { stepPx: binPx, heights, tenPx: -beforePx, ninetyPx: behindPx };
  return {
    stepPx: binPx,
    heights: heights.map((height) => 1 - height).reverse(),
    tenPx: -behindPx,
    ninetyPx: beforePx,
  };
}
