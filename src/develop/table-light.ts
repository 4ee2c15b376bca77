import { identityMatrix } from '../colour/index.ts';
import { type LookTable, latticeNumbers, workingLuminance } from '../look/index.ts';
import { applyLattice } from '../look/kernels/apply-lattice.ts';
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

/** The lattice of a look on a strip of display light. */
export function tableStep(table: LookTable): (strip: Float32Array, pixels: number) => void {
  const numbers = latticeNumbers(table);
  return (strip, pixels) => applyLattice(strip, pixels, numbers);
}
