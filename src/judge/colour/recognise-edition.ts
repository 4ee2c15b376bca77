import type { TargetEdition } from '../../facts/index.ts';
import { colourErrors, fitColours, meanOf } from './fit-colours.ts';
import type { PatchLight } from './patch-light.ts';
import { publishedPatches } from './published-patches.ts';

/** How much better one edition has to agree than the other, and how well at all, to be recognised. */
const clearlyBetter = 0.75;
const wellEnough = 1.5;

/**
 * Which edition the target is, by whose values a matrix of its own brings the colours nearer to. The editions lie 0.85
 * apart in the mean, so most cameras' own errors hide it; then the newer one is assumed, since the older have faded.
 */
export function recogniseEdition(patches: readonly PatchLight[]): {
  readonly edition: TargetEdition;
  readonly editionBy: 'recognised' | 'assumed';
} {
  const before = errorAgainst(patches, 'before-november-2014');
  const from = errorAgainst(patches, 'from-november-2014');
  const clear =
    Math.min(before, from) < wellEnough && Math.min(before, from) < clearlyBetter * Math.max(before, from);
  return clear && before < from
    ? { edition: 'before-november-2014', editionBy: 'recognised' }
    : { edition: 'from-november-2014', editionBy: clear ? 'recognised' : 'assumed' };
}

function errorAgainst(patches: readonly PatchLight[], edition: TargetEdition): number {
  const pairs = patches.flatMap(({ light, saturatedPercent }, index) => {
    const xyz = publishedPatches[edition].xyz[index];
    return xyz === undefined || saturatedPercent > 1 ? [] : [{ light, xyz }];
  });
  const matrix = fitColours(pairs);
  if (matrix === null) return Number.POSITIVE_INFINITY;
  // A colour outside the picture's gamut is off against both and must not drown the others.
  return meanOf(colourErrors(matrix, pairs).map((error) => Math.min(error, 2)));
}
