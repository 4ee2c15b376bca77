import { applyMatrix, type Matrix3, type Vector3, xyzToLab } from '../../colour/index.ts';
import type { PatchReading } from '../../facts/index.ts';
import { greyPatches, type PublishedPatches } from './published-patches.ts';
import type { LabPair } from './summary.ts';

type Lit = Pick<PatchReading, 'light'>;

/** From here on a patch has lost light, % of its samples. */
const saturatedPercentMax = 1;

export function isUsable(patch: Pick<PatchReading, 'saturatedPercent'> | undefined): boolean {
  return (patch?.saturatedPercent ?? 100) <= saturatedPercentMax;
}

/** What the light has to be multiplied by so that the greys are as bright as published, least squares of Y. */
export function exposureGain(
  patches: readonly Lit[],
  published: PublishedPatches,
  toXyz: Matrix3 | null,
  usable: (patch: number) => boolean,
): number {
  let both = 0;
  let own = 0;
  for (const patch of greyPatches.filter(usable)) {
    const light = patches[patch - 1]?.light;
    const wanted = published.xyz[patch - 1]?.[1];
    if (light === undefined || wanted === undefined) continue;
    // Balanced greys are as bright in green as in all.
    const measured = toXyz === null ? light[1] : applyMatrix(toXyz, light)[1];
    both += measured * wanted;
    own += measured * measured;
  }
  return both > 0 && own > 0 ? both / own : 1;
}

export function xyzOf(patches: readonly Lit[], toXyz: Matrix3 | null, gain: number): readonly Vector3[] {
  if (toXyz === null) return [];
  return patches.map(({ light }) => {
    const [x, y, z] = applyMatrix(toXyz, light);
    return [gain * x, gain * y, gain * z];
  });
}

export function labPairs(measured: readonly Vector3[], { lab }: PublishedPatches): readonly LabPair[] {
  return measured.flatMap((xyz, index) => {
    const published = lab[index];
    return published === undefined ? [] : [{ patch: index + 1, measured: xyzToLab(xyz), published }];
  });
}
