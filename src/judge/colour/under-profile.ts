import { parseMatrix, type Vector3 } from '../../colour/index.ts';
import type { CameraProfile, PatchReading, TargetReading, Triple } from '../../facts/index.ts';
import { greyError } from './grey-error.ts';
import { exposureGain, isUsable, labPairs, xyzOf } from './patch-colours.ts';
import { greyPatches, publishedPatches } from './published-patches.ts';
import { summarise } from './summary.ts';

/**
 * What the patches of a raw say where it is rendered by the profile of another target in place of its own balance and its
 * camera's matrix. `own`: the balance that the patches' light has, as the profile's are: multipliers, the smallest 1. Null
 * for a profile that is none of a raw.
 */
export function underProfile(
  { patches, edition }: Pick<TargetReading, 'edition'> & { readonly patches: readonly PatchReading[] },
  own: Triple,
  { toXyz, multipliers }: Pick<CameraProfile, 'toXyz' | 'multipliers'>,
): Pick<TargetReading, 'colour' | 'flat' | 'greys'> | null {
  const matrix = parseMatrix(toXyz);
  if (matrix === null || multipliers === null) return null;
  const [r, g, b] = [multipliers[0] / own[0], multipliers[1] / own[1], multipliers[2] / own[2]];
  const lit = patches.map(({ light }) => ({ light: [light[0] * r, light[1] * g, light[2] * b] as const }));
  const published = publishedPatches[edition];
  const usable = (patch: number): boolean => isUsable(patches[patch - 1]);
  const measured = xyzOf(lit, matrix, exposureGain(lit, published, matrix, usable));
  const pairs = labPairs(measured, published);
  const pick = (from: readonly Vector3[]): readonly Vector3[] =>
    greyPatches.filter(usable).flatMap((patch) => from.slice(patch - 1, patch));
  return {
    colour: summarise(pairs),
    flat: summarise(pairs, true),
    greys: greyError(pick(measured), pick(published.xyz)),
  };
}
