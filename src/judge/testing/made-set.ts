import type { HalfPlane } from '../half-plane.ts';
import { gaussian } from './made-light.ts';

/** Of the half-size light that {@link madeSet} draws. */
export const madeSetSize: { readonly widthPx: number; readonly heightPx: number } = {
  widthPx: 300,
  heightPx: 200,
};

/** Stripes that a lamp would make over the rows of the sensor. */
export interface MadeStripes {
  /** From dark to bright, EV. */
  readonly ev: number;
  readonly cycles: number;
}

/**
 * A set by chance, without stripes unless they are asked for: a plain backdrop with uneven light, one to six wares before it,
 * each of up to six parts one above the other (a label, a lid), and under every other one the edge of a table from side
 * to side, sharp or soft. Light in steps, with the noise of a sensor.
 */
export function madeSet(seed: number, stripes: MadeStripes | null = null): HalfPlane {
  const { widthPx, heightPx } = madeSetSize;
  const even = evenOf(seed);
  const stops = new Float64Array(widthPx * heightPx);
  const [across, down, level] = [even() - 0.5, 1.5 * (even() - 0.5), 9.5 + 2.5 * even()];
  const table = {
    y: heightPx * (0.4 + 0.4 * even()),
    soft: even() < 0.5 ? 0.5 : 20 * even(),
    ev: 3 * (even() - 0.5),
  };
  for (let at = 0; at < stops.length; at++) {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)];
    stops[at] = level + across * (x / widthPx - 0.5) + down * (y / heightPx - 0.5);
    if (seed % 2 === 0) stops[at] = (stops[at] ?? 0) + table.ev / (1 + Math.exp((table.y - y) / table.soft));
  }
  const wares = 1 + Math.floor(even() ** 2 * 6);
  for (let ware = 0; ware < wares; ware++) {
    addWare(stops, (ware + 0.3 + 0.4 * even()) / wares, (0.25 + 0.5 * even()) / wares, even);
  }
  const noise = gaussian(seed + 1);
  const phase = 2 * Math.PI * even();
  return {
    widthPx,
    heightPx,
    data: Float32Array.from(stops, (value, at) => {
      const place = (2 * Math.PI * Math.floor(at / widthPx)) / heightPx;
      const pulse = stripes === null ? 0 : (stripes.ev / 2) * Math.sin(stripes.cycles * place + phase);
      const light = 2 ** (value + pulse);
      return light + noise() * (2 + 0.3 * Math.sqrt(light));
    }),
  };
}

/** `middle`, `wide`: shares of the width. */
function addWare(stops: Float64Array, middle: number, wide: number, even: () => number): void {
  const { widthPx, heightPx } = madeSetSize;
  const parts = 1 + Math.floor(even() * 6);
  const ends = Array.from({ length: parts }, () => ({ to: even(), ev: 0.5 - 3 * even() }));
  const [high, bottom] = [heightPx * (0.2 + 0.6 * even()), heightPx * (0.6 + 0.35 * even())];
  for (let y = Math.max(0, Math.ceil(bottom - high)); y < bottom; y++) {
    const share = (y - bottom + high) / high;
    const ev = (ends.find(({ to }) => share <= to) ?? ends[0])?.ev ?? 0;
    const half = (wide / 2) * (0.7 + 0.3 * Math.min(1, 3 * share)) * widthPx;
    const [from, to] = [Math.max(0, middle * widthPx - half), Math.min(widthPx, middle * widthPx + half)];
    for (let x = Math.round(from); x < to; x++) stops[y * widthPx + x] = (stops[y * widthPx + x] ?? 0) + ev;
  }
}

/** Evenly strewn shares of a seed: a linear congruence (Numerical Recipes' constants). */
function evenOf(seed: number): () => number {
  let state = Math.imul(seed + 1, 2_654_435_761) >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 4_294_967_296;
  };
}
