/**
 * A shaper: linear light to an even scale on which a lattice's nodes lie. Linear through zero up to `linearEnd`, log2
 * beyond, the two joined with one slope; 0 at `low`, 1 at `high`. In stops from `linearEnd`:
 *
 *     u(x) = x / (linearEnd ln 2)                  x <= linearEnd
 *     u(x) = log2(x / linearEnd) + 1 / ln 2        x >  linearEnd
 *
 * (the piecewise form of cameraLinToLog in Academy S-2014-006 with the slope left to be worked out).
 */
export interface Shaper {
  readonly linearEnd: number;
  readonly low: number;
  readonly high: number;
}

const join = 1 / Math.LN2;

/** Position on the even scale; beyond 0 … 1 for light beyond low … high. */
export function shape(shaper: Shaper, light: number): number {
  const start = stopsOf(shaper, shaper.low);
  return (stopsOf(shaper, light) - start) / (stopsOf(shaper, shaper.high) - start);
}

/** The inverse of {@link shape}. */
export function unshape(shaper: Shaper, position: number): number {
  const { linearEnd, low, high } = shaper;
  const start = stopsOf(shaper, low);
  const u = start + position * (stopsOf(shaper, high) - start);
  return u <= join ? u * linearEnd * Math.LN2 : linearEnd * 2 ** (u - join);
}

/** u(x) above. */
export function stopsOf({ linearEnd }: Shaper, light: number): number {
  return light <= linearEnd ? (light / linearEnd) * join : Math.log2(light / linearEnd) + join;
}

/** On display light, 0 … 1: eight stops and the linear part below them. */
export const displayShaper: Shaper = { linearEnd: 2 ** -8, low: 0, high: 1 };
