import type { LocalParts } from '../../look/index.ts';
import { mergeDetail, splitDetail } from '../kernels/noise-scale.ts';
import { gaussianTaps } from './acutance-reference.ts';
import { type Acutance, detailPlanes, plainDetailKernels } from './detail-kernels.ts';
import type { NoiseScale } from './noise-scale.ts';
import { simdDetailKernels } from './simd/simd-detail-kernels.ts';

/** Smoothing and acutance of one picture, at full size or half. */
export interface DetailPlan {
  readonly scale: NoiseScale;
  /** What counts as noise on each level, squared; none where nothing is smoothed. */
  readonly lightness: Float64Array;
  readonly red: Float64Array;
  readonly blue: Float64Array;
  readonly acutance: Acutance | null;
  /** How far a pixel looks. */
  readonly marginPx: number;
}

/**
 * Standard deviations of noise on the levels of smoothing, finest first, where every sample of the mosaic has one of 1
 * on the stabilised scale: what our own demosaicing leaves of it, measured (detail.test.ts measures it again). Of lightness as
 * a whole, too.
 */
export const noiseGains = {
  full: { lightness: [1.18, 0.337, 0.143], colour: [0.142, 0.164, 0.123, 0.07], whole: 1.405 },
  half: { lightness: [0.68, 0.168], colour: [0.355, 0.153, 0.074], whole: 0.78 },
} as const;

/**
 * Plans detail; null where the look has none. Levels are fewer at half size, whose finest is full size's second: a look does
 * the same to a picture at any size.
 */
export function planDetail(
  { smoothing, acutance }: Pick<LocalParts, 'smoothing' | 'acutance'>,
  scale: NoiseScale,
  from: 'half' | 'full',
): DetailPlan | null {
  const smooths = smoothing.luma > 0 || smoothing.chroma > 0;
  if (!smooths && acutance.strength === 0) return null;
  const gains = noiseGains[from];
  const limits = (levels: readonly number[], sigmas: number): Float64Array =>
    Float64Array.from(sigmas > 0 ? levels : [], (level) => (sigmas * level) ** 2);
  const lightness = limits(gains.lightness, smoothing.luma);
  const red = limits(gains.colour, smoothing.chroma * scale.red);
  const blue = limits(gains.colour, smoothing.chroma * scale.blue);
  const levels = Math.max(lightness.length, red.length, blue.length);
  // Taps reach two steps on each level, and the nine around one more step on the last.
  const smoothPx = levels === 0 ? 0 : 2 * (2 ** levels - 1) + 2 ** (levels - 1);
  const sharpens = acutance.strength > 0;
  const sigmaPx = acutance.widthPx / (from === 'half' ? 2 : 1);
  const taps = Float64Array.from(gaussianTaps(sigmaPx));
  return {
    scale,
    lightness,
    red,
    blue,
    acutance: sharpens
      ? {
          taps,
          strength: acutance.strength,
          gate: scale.red > 0 ? acutance.gate * gains.whole : 0,
        }
      : null,
    marginPx: smoothPx + (sharpens ? taps.length - 1 : 0),
  };
}

/** Works on windows of balanced RGB in place, up to `pixelsMax` pixels; 8 floats of memory for each. */
export function detailStep(
  plan: DetailPlan,
  pixelsMax: number,
): (rgb: Float32Array, widthPx: number, heightPx: number) => void {
  const kernels = simdDetailKernels(pixelsMax) ?? plainDetailKernels(pixelsMax);
  const { scale, acutance } = plan;
  return (rgb, widthPx, heightPx) => {
    const count = widthPx * heightPx;
    const planeOf = (plane: number): Float32Array =>
      kernels.planes.subarray(plane * count, (plane + 1) * count);
    const [lightness, red, blue, lift] = [
      planeOf(detailPlanes.lightness),
      planeOf(detailPlanes.red),
      planeOf(detailPlanes.blue),
      planeOf(detailPlanes.lift),
    ];
    splitDetail(rgb, count, scale.shot, scale.read, lightness, red, blue);
    for (const plane of ['lightness', 'red', 'blue'] as const) {
      if (plan[plane].length > 0) kernels.smooth(detailPlanes[plane], widthPx, heightPx, plan[plane]);
    }
    if (acutance === null) lift.fill(1);
    else kernels.lift(widthPx, heightPx, acutance);
    mergeDetail(rgb, count, scale.shot, scale.read, lightness, red, blue, lift);
  };
}
