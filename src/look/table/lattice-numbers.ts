import type { LatticeNumbers } from '../kernels/apply-lattice.ts';
import type { Lattice } from './lattice.ts';
import { shape, unshape } from './shaper.ts';

/** Enough that sampling the shapers costs less than 1e-5 of a position. */
const samples = 8192;

/** A lattice with its shapers sampled, as `applyLattice` takes it. */
export function latticeNumbers({ size, values, into, outOf }: Lattice): LatticeNumbers {
  const [outLow, outHigh] = rangeOf(values);
  return {
    size,
    values,
    into: Float32Array.from({ length: samples + 1 }, (_, i) => shape(into, (i / samples) ** 2)),
    outOf: Float32Array.from({ length: samples + 1 }, (_, i) =>
      unshape(outOf, outLow + ((outHigh - outLow) * i) / samples),
    ),
    outLow,
    outHigh,
  };
}

/** Never of no width: a table of one colour is a table too. */
function rangeOf(values: Float32Array): readonly [number, number] {
  let [low, high] = [0, 1];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}
