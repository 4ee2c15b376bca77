import { type LookTable, latticeNumbers } from '../../look/index.ts';

/** A look's table as `lattice` in assembly/lattice.ts takes it. */
export interface TableNumbers {
  readonly size: number;
  readonly values: Float32Array;
  /** With their last sample twice: a position at the end reads a pair too. */
  readonly into: Float32Array;
  readonly outOf: Float32Array;
  readonly outLow: number;
  readonly toOut: number;
}

export function tableNumbers(table: LookTable): TableNumbers {
  const { size, values, into, outOf, outLow, outHigh } = latticeNumbers(table);
  const toOut = (outOf.length - 1) / (outHigh - outLow);
  return { size, values, into: endedTwice(into), outOf: endedTwice(outOf), outLow, toOut };
}

function endedTwice(samples: Float32Array): Float32Array {
  return Float32Array.from(
    { length: samples.length + 1 },
    (_, at) => samples[Math.min(at, samples.length - 1)] ?? 0,
  );
}
