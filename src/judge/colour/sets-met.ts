import { type TargetReading, toleranceSets } from '../../facts/index.ts';

/**
 * Names of the tolerance sets whose limits for colour are all kept. That is never a level of the whole picture: a 24-patch
 * target says nothing of resolution, noise and evenness.
 */
export function toleranceSetsMet({
  flat,
  greys: grey,
  source,
  saturatedPatches,
}: Pick<TargetReading, 'flat' | 'greys' | 'source' | 'saturatedPatches'>): readonly string[] {
  if (flat === null || grey === null || source === 'preview') return [];
  if (source === 'raw' && saturatedPatches > 0) return [];
  return toleranceSets
    .filter(
      (set) =>
        flat.mean <= set.meanDeltaE00 &&
        flat.percentile90 <= (set.percentile90DeltaE00 ?? Number.POSITIVE_INFINITY) &&
        flat.max <= (set.maxDeltaE00 ?? Number.POSITIVE_INFINITY) &&
        grey.deltaAb <= set.greyDeltaAb,
    )
    .map(({ name }) => name);
}
