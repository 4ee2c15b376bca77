/**
 * The weights of a filter that moves a row by a fraction of a pixel and blurs it with a Gaussian: centred, odd
 * length, sum 1. The Gaussian is integrated over each pixel, so that a small sigma keeps its width; without blur the
 * fraction is linear between two pixels.
 */
export function filterWeights(fractionPx: number, sigmaPx: number): Float32Array {
  if (sigmaPx === 0 && fractionPx === 0) return Float32Array.of(1);
  const reach = Math.ceil(3.5 * sigmaPx) + 1;
  const weights = Float32Array.from({ length: 2 * reach + 1 }, (_, index) =>
    sigmaPx === 0
      ? Math.max(0, 1 - Math.abs(index - reach - fractionPx))
      : normalShare(index - reach - fractionPx, sigmaPx),
  );
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** Share of a normal distribution that falls on the pixel whose centre is `x` away. */
function normalShare(x: number, sigma: number): number {
  return (
    0.5 * (errorFunction((x + 0.5) / (sigma * Math.SQRT2)) - errorFunction((x - 0.5) / (sigma * Math.SQRT2)))
  );
}

/** Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26; error below 1.5e-7. */
function errorFunction(x: number): number {
  const t = 1 / (1 + 0.3275911 * Math.abs(x));
  const polynomial =
    ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t;
  const value = 1 - polynomial * Math.exp(-x * x);
  return x < 0 ? -value : value;
}

/** Where the light of one point goes: whole pixels right and down, and the share that falls there. */
export interface LineTaps {
  readonly dx: Int16Array;
  readonly dy: Int16Array;
  readonly share: Float32Array;
}

/** Resampling between pixels spreads by this much on top, square pixels: the mean of f (1 - f). */
const resamplingVariance = 1 / 6;
const stepsPerPixel = 8;

/**
 * A line of the given length through the pixel's middle, in steps of an eighth, each shared out to the four pixels about
 * it. The line is drawn so much shorter that its variance along itself is that of an even movement, length² / 12; across
 * it a sixth of a square pixel remains.
 */
export function lineTaps(lengthPx: number, angleDegrees: number): LineTaps {
  const length = Math.sqrt(Math.max(0, lengthPx * lengthPx - 12 * resamplingVariance));
  const cos = Math.cos((angleDegrees * Math.PI) / 180);
  const sin = Math.sin((angleDegrees * Math.PI) / 180);
  const steps = Math.max(1, Math.ceil(length * stepsPerPixel));
  const shares = new Map<string, { dx: number; dy: number; share: number }>();
  const drop = (dx: number, dy: number, share: number): void => {
    const key = `${dx} ${dy}`;
    const tap = shares.get(key) ?? { dx, dy, share: 0 };
    tap.share += share / steps;
    shares.set(key, tap);
  };
  for (let k = 0; k < steps; k++) {
    const along = length * ((k + 0.5) / steps - 0.5);
    const x = along * cos;
    const y = along * sin;
    const [ix, iy] = [Math.floor(x), Math.floor(y)];
    const [fx, fy] = [x - ix, y - iy];
    drop(ix, iy, (1 - fx) * (1 - fy));
    drop(ix + 1, iy, fx * (1 - fy));
    drop(ix, iy + 1, (1 - fx) * fy);
    drop(ix + 1, iy + 1, fx * fy);
  }
  const taps = [...shares.values()].filter(({ share }) => share > 1e-9);
  return {
    dx: Int16Array.from(taps, ({ dx }) => dx),
    dy: Int16Array.from(taps, ({ dy }) => dy),
    share: Float32Array.from(taps, ({ share }) => share),
  };
}
