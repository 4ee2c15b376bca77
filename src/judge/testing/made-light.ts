import type { LightGrid } from '../light-grid.ts';

/** Light of an edge that was blurred by a Gaussian, sampled at points: the pixel's aperture is not in it. */
export interface MadeEdge {
  readonly sigmaPx: number;
  /** Of the normal, degrees from x towards y. */
  readonly degrees: number;
  /** Standard deviation of a sample's noise, steps; the edge is 8000 high. */
  readonly noise: number;
  /** As in `LightGrid`. */
  readonly greenParity: -1 | 0 | 1;
}

export const madeEdgeSize = 200;

/** A grid with one edge through its middle, black levels of 510 and 515 in turn. */
export function madeEdge({ sigmaPx, degrees, noise, greenParity }: MadeEdge): LightGrid {
  const size = madeEdgeSize;
  const random = gaussian(Math.round(1000 * sigmaPx + degrees) + 7);
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const values = Uint16Array.from({ length: size * size }, (_, at) => {
    const [x, y] = [at % size, Math.floor(at / size)];
    const d = (x - 99.3) * c + (y - 100.2) * s;
    return Math.round((y % 2 === 0 ? 510 : 515) + 2000 + 8000 * normal(d / sigmaPx) + noise * random());
  });
  return {
    values,
    widthPx: size,
    heightPx: size,
    greenParity,
    blacks: Float64Array.of(510, 515),
    saturation: 15_000,
  };
}

const stepsPerSigma = 500;
/** Φ by adding up the density (trapezoids): not the formula that the code under test uses. */
const normalTable = makeNormalTable();

function makeNormalTable(): Float64Array {
  const density = (k: number): number => Math.exp(-0.5 * (k / stepsPerSigma) ** 2) / Math.sqrt(2 * Math.PI);
  const table = new Float64Array(8 * stepsPerSigma + 1).fill(0.5);
  for (let k = 1; k < table.length; k++) {
    table[k] = (table[k - 1] ?? 0) + (density(k - 1) + density(k)) / 2 / stepsPerSigma;
  }
  return table;
}

export function normal(t: number): number {
  const place = Math.min(Math.abs(t), 7.99) * stepsPerSigma;
  const below = Math.floor(place);
  const [low = 1, high = 1] = [normalTable[below], normalTable[below + 1]];
  const share = low + (high - low) * (place - below);
  return t >= 0 ? share : 1 - share;
}

/** Normal deviates of a seed: Box and Muller over a linear congruence (Numerical Recipes' constants). */
export function gaussian(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 4_294_967_296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
