import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import type { OriginalTrouble } from '../core/verified.ts';
import type { CopyOutcome, PlaceLies, PlaceTrouble } from './copy-shapes.ts';
import { placeFloorBytes } from './room-left.ts';

/** What is said of a place to which nothing can be copied now. */
export function placeFinding({ trouble, why }: PlaceTrouble, folder: string): Finding {
  const code = `copy.${trouble}`;
  if (trouble === 'failed') return { code, args: { folder, why } };
  return { code, args: trouble === 'full' ? { folder, floorBytes: placeFloorBytes } : { folder } };
}

/** That copies in a place do not count; null where they do, and while it is away. */
export function countsNotFinding(lies: PlaceLies | null, folder: string): Finding | null {
  return lies === null || lies === 'apart' ? null : { code: `copy.${lies}`, args: { folder } };
}

/** What an outcome says of the original; null where it says nothing of it. */
export function originalTrouble({ kind }: CopyOutcome): OriginalTrouble | null {
  if (kind === 'original-missing') return 'missing';
  if (kind === 'original-unreadable') return 'unreadable';
  return kind === 'original-differs' ? 'differs' : null;
}

/** That originals wait in vain, since they are not as they were received; null where none does. */
export function badOriginalsFinding(originals: readonly string[]): Finding | null {
  const [original] = originals;
  return original === undefined
    ? null
    : { code: 'copy.originals-bad', args: { original, count: originals.length } };
}

/** What is said of a file that could not be copied. */
export function fileFinding(
  outcome: Exclude<CopyOutcome, { readonly kind: 'copied' | 'place' }>,
  { original }: KeptFile,
  folder: string,
): Finding {
  switch (outcome.kind) {
    case 'original-missing':
    case 'original-differs':
      return { code: `copy.${outcome.kind}`, args: { original } };
    case 'original-unreadable':
      return { code: 'copy.original-unreadable', args: { original, why: outcome.why } };
    case 'differs':
      return { code: 'copy.differs', args: { original, folder } };
  }
}
