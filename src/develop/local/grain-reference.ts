/**
 * Grain, one pixel at a time: obvious, slow, and the documentation of the kernels.
 *
 * A field of normal numbers, correlated as a Gaussian, is added to the picture's density: light times 10^(-density). Its
 * standard deviation, read by a pixel of full size, is the granularity in an even mid-grey (E. W. H. Selwyn, A theory of
 * graininess, Photographic Journal 75, 1935: fluctuations of density are normal, and fall with the root of the area read; from
 * memory). A grain's diameter is the width at half height of the field's autocorrelation. Half size reads four pixels of full
 * size at once, and areas that are reduced further more, so grain calms down as it does when one steps back.
 *
 * Neither black nor white has grain: what is all or nothing covered does not vary (variance of a share p covered: p (1 - p)).
 */
import { whiteNoise } from '../kernels/grain-rows.ts';

/** Full width at half height of exp(-r^2 / (4 s^2)), the autocorrelation of a field made by a Gaussian of s: 4 s sqrt(ln 2). */
export function grainSigmaPx(sizePx: number): number {
  return sizePx / (4 * Math.sqrt(Math.LN2));
}

/** The Gaussian of a grain, both sides, so that squares add up to 1: white noise through it, along both axes, keeps variance. */
export function grainTaps(sizePx: number): number[] {
  const sigmaPx = grainSigmaPx(sizePx);
  const reach = Math.max(1, Math.ceil(3 * sigmaPx));
  const taps = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-((k - reach) ** 2) / (2 * sigmaPx * sigmaPx)),
  );
  const size = Math.sqrt(taps.reduce((sum, tap) => sum + tap * tap, 0));
  return taps.map((tap) => tap / size);
}

/** The field at a pixel of full size: mean 0, standard deviation 1. */
export function grainField(seed: number, taps: readonly number[], row: number, column: number): number {
  const reach = (taps.length - 1) / 2;
  let sum = 0;
  taps.forEach((down, y) => {
    const rowSeed = (seed ^ Math.imul(row + y - reach, 0x85ebca77)) | 0;
    taps.forEach((along, x) => {
      sum += down * along * whiteNoise(rowSeed, column + x - reach);
    });
  });
  return sum;
}

/** Factor on display light of luminance 0 … 1 where the field has this value. */
export function grainFactor(luminance: number, density: number, field: number): number {
  return 10 ** (-density * grainWeight(luminance) * field);
}

/** 1 at 18 % grey, 0 at black and white: 4 u (1 - u), on the power of light that puts 18 % in the middle (common practice). */
export function grainWeight(luminance: number): number {
  const u = Math.min(1, Math.max(0, luminance)) ** (Math.log(0.5) / Math.log(0.18));
  return 4 * u * (1 - u);
}
