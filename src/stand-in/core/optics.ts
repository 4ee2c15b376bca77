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
