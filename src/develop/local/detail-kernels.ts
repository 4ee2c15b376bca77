import { liftPlane } from '../kernels/acutance-plane.ts';
import { smoothPlane } from '../kernels/smooth-plane.ts';

/** Acutance as its kernels take it. */
export interface Acutance {
  /**
   * Half of the blur, from its middle outwards. As far as it sees, the range around a pixel bounds what becomes of it:
   * texture has its whole range in it, so only what leaves that range is held.
   */
  readonly taps: Float64Array;
  readonly strength: number;
  /** What counts as noise. */
  readonly gate: number;
}

/** Which plane of `DetailKernels.planes` holds what; four more behind them are scratch. */
export const detailPlanes = { lightness: 0, red: 1, blue: 2, lift: 3, scratch: 4 } as const;
export const detailPlanesCount = 8;

/**
 * The heavy steps of detail, bound to memory of their own. There are two forms, in TypeScript and in WebAssembly SIMD,
 * tested against each other.
 */
export interface DetailKernels {
  /** Room for eight planes of up to `pixelsMax` pixels; plane k of a window of n pixels begins at k n. */
  readonly planes: Float32Array;
  /** Smooths a plane in place: `smoothReference`. `limits`: what counts as noise on each level, squared. */
  smooth(plane: number, widthPx: number, heightPx: number, limits: Float64Array): void;
  /** From the plane of lightness to that of the factors on it: `liftReference`. */
  lift(widthPx: number, heightPx: number, acutance: Acutance): void;
}

export function plainDetailKernels(pixelsMax: number): DetailKernels {
  const planes = new Float32Array(detailPlanesCount * pixelsMax);
  return {
    planes,
    smooth: (plane, widthPx, heightPx, limits) => {
      const count = widthPx * heightPx;
      const [at, scratch] = [plane * count, detailPlanes.scratch * count];
      smoothPlane(
        planes.subarray(at, at + count),
        widthPx,
        heightPx,
        limits,
        planes.subarray(scratch, scratch + 4 * count),
      );
    },
    lift: (widthPx, heightPx, { taps, strength, gate }) => {
      const count = widthPx * heightPx;
      const planeOf = (plane: number, length = 1): Float32Array =>
        planes.subarray(plane * count, (plane + length) * count);
      liftPlane(
        planeOf(detailPlanes.lightness),
        widthPx,
        heightPx,
        taps,
        strength,
        gate,
        taps.length - 1,
        planeOf(detailPlanes.scratch, 3),
        planeOf(detailPlanes.lift),
      );
    },
  };
}
