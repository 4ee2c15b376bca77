/**
 * Where the rays of an outline pixel go: spread like the light that one pixel gathers, its own square blurred by the
 * lens. A rank-1 lattice mapped through the distribution's quantiles, so that an edge at any angle meets as many
 * different positions as there are rays.
 */
const rays = 13;
const generator = 5;

/** x, y, x, y, … in pixels from the pixel's centre. */
export function outlineSpread(sigmaPx: number): Float64Array {
  const quantile = quantiles(sigmaPx);
  const places = Array.from({ length: rays }, (_, k) => quantile((k + 0.5) / rays));
  // Middles of equal shares lack what lies further out in each; stretched, they have the variance that they stand for.
  const variance = places.reduce((sum, place) => sum + place * place, 0) / rays;
  const stretch = Math.sqrt((sigmaPx * sigmaPx + 1 / 12) / variance);
  return Float64Array.from(
    places.flatMap((place, k) => [place * stretch, (places[(k * generator) % rays] ?? 0) * stretch]),
  );
}

/** How far from its centre a pixel gathers light, whole pixels. */
export function spreadReach(sigmaPx: number): number {
  return Math.ceil(0.5 + 2.2 * sigmaPx);
}

/** Inverse of the distribution of (uniform on the pixel) + (normal of the lens), by summing its density. */
function quantiles(sigmaPx: number): (share: number) => number {
  const step = 0.002;
  const reach = 0.5 + 4 * sigmaPx;
  const places = Array.from({ length: Math.floor((2 * reach) / step) + 1 }, (_, k) => -reach + k * step);
  let sum = 0;
  const summed = places.map((x) => {
    sum += pixelDensity(x, sigmaPx);
    return sum;
  });
  return (share) => {
    const at = summed.findIndex((value) => value >= share * sum);
    return places[Math.max(0, at)] ?? 0;
  };
}

function pixelDensity(x: number, sigmaPx: number): number {
  if (sigmaPx === 0) return Math.abs(x) <= 0.5 ? 1 : 0;
  // A normal convolved with the square, by the trapezoid rule.
  const parts = 40;
  let sum = 0;
  for (let k = 0; k <= parts; k++) {
    const offset = (x - 0.5 + k / parts) / sigmaPx;
    sum += (k === 0 || k === parts ? 0.5 : 1) * Math.exp(-0.5 * offset * offset);
  }
  return sum;
}
