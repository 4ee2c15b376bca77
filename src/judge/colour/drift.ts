import { deltaE2000, labToXyz, type Vector3, xyToUv76, xyzToLab } from '../../colour/index.ts';
import type { ColourDrift, TargetReading } from '../../facts/index.ts';
import { meanOf } from './fit-colours.ts';
import { chromaticityD65 } from './grey-error.ts';
import { greyPatches } from './published-patches.ts';

/**
 * How the same colours have moved between two frames: greys, a backdrop, whatever stands still. XYZ D50, in the same order.
 * `neutrals` says which of them are neutral (all, where it is left out). What differs in exposure is taken off first; chromaticities are
 * those under D65. Null
 * where there is nothing to compare or nothing neutral with light in it.
 */
export function colourDrift(
  before: readonly Vector3[],
  after: readonly Vector3[],
  neutrals: readonly number[] = before.map((_, index) => index),
): ColourDrift | null {
  if (before.length === 0 || before.length !== after.length) return null;
  const pick = (from: readonly Vector3[]): Vector3 =>
    neutrals.reduce<Vector3>(
      (sum, index) => {
        const [x, y, z] = from[index] ?? [0, 0, 0];
        return [sum[0] + x, sum[1] + y, sum[2] + z];
      },
      [0, 0, 0],
    );
  const [first, second] = [pick(before), pick(after)];
  if (!(first[1] > 0 && second[1] > 0)) return null;
  const gain = first[1] / second[1];
  const errors = after.map(([x, y, z], index) =>
    deltaE2000(xyzToLab([gain * x, gain * y, gain * z]), xyzToLab(before[index] ?? [x, y, z])),
  );
  const [u0, v0] = xyToUv76(chromaticityD65(first));
  const [u1, v1] = xyToUv76(chromaticityD65(second));
  return {
    deltaUv: Math.hypot(u1 - u0, v1 - v0),
    deltaE00Mean: meanOf(errors),
    deltaE00Max: Math.max(...errors),
    ev: -Math.log2(gain),
  };
}

/** The same between two readings of the target: its greys and all its patches. Null where one has no colours. */
export function targetDrift(before: TargetReading, after: TargetReading): ColourDrift | null {
  if (before.source !== after.source) return null;
  const colours = (reading: TargetReading): readonly Vector3[] =>
    reading.patches.flatMap(({ lab }) => {
      if (lab === null) return [];
      const [x, y, z] = labToXyz(lab);
      const gain = 2 ** reading.exposureEv;
      return [[gain * x, gain * y, gain * z] satisfies Vector3];
    });
  return colourDrift(
    colours(before),
    colours(after),
    greyPatches.map((patch) => patch - 1),
  );
}
