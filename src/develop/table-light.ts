import { identityMatrix } from '../colour/index.ts';
import { type LookTable, shape, unshape, workingLuminance } from '../look/index.ts';
import { applyLattice, type LatticeNumbers } from './kernels/apply-lattice.ts';
import type { LightPlan } from './strip-kernels.ts';

/** What one run of `light` takes; a plan without a table is one run. */
export type LightRun = Omit<LightPlan, 'lookTable'>;

/**
 * The runs that a plan with a table falls into: scene light to display light of the working space, within 0 … 1; then,
 * behind the lattice, to the output space. `light` is the kernel that already is; the lattice is the only new step.
 */
export function runsAroundTable({
  toScene,
  curve,
  toOutput,
  luminance,
}: LightPlan): readonly [LightRun, LightRun] {
  return [
    { toScene, curve, toOutput: identityMatrix, luminance: workingLuminance },
    { toScene: toOutput, curve: null, toOutput: identityMatrix, luminance },
  ];
}

/** The lattice of a look on a strip of display light, in TypeScript whatever does the rest. */
export function tableStep(table: LookTable): (strip: Float32Array, pixels: number) => void {
  const numbers = latticeNumbers(table);
  return (strip, pixels) => applyLattice(strip, pixels, numbers);
}

/** Enough that sampling the shapers costs less than 1e-5 of a position. */
const samples = 8192;

function latticeNumbers({ size, values, into, outOf }: LookTable): LatticeNumbers {
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
