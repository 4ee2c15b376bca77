import { percentile } from '../../base/index.ts';
import { deltaE2000, type Vector3 } from '../../colour/index.ts';
import type { ColourSummary } from '../../facts/index.ts';
import { meanOf } from './fit-colours.ts';

/** A patch as measured beside what is published, both L*a*b* D50. */
export interface LabPair {
  readonly patch: number;
  readonly measured: Vector3;
  readonly published: Vector3;
}

/** CIEDE2000 over patches. Null where there are none. `flatLightness`: with S_L = 1. */
export function summarise(pairs: readonly LabPair[], flatLightness = false): ColourSummary | null {
  const errors = pairs.map(({ measured, published }) => deltaE2000(measured, published, flatLightness));
  const max = Math.max(...errors);
  const worst = pairs[errors.indexOf(max)];
  if (worst === undefined) return null;
  const square = (of: (pair: LabPair) => number): number =>
    Math.sqrt(meanOf(pairs.map((pair) => of(pair) ** 2)));
  return {
    mean: meanOf(errors),
    percentile90: percentile(errors, 0.9),
    max,
    maxPatch: worst.patch,
    lightness: square(lightnessError),
    chroma: square(chromaError),
  };
}

/** L*, measured less published. */
export function lightnessError({ measured, published }: LabPair): number {
  return measured[0] - published[0];
}

/** C*ab, measured less published. */
export function chromaError({ measured, published }: LabPair): number {
  return Math.hypot(measured[1], measured[2]) - Math.hypot(published[1], published[2]);
}
