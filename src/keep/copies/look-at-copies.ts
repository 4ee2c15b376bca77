import { lstatSync } from 'node:fs';
import { join } from 'node:path';
import { errorCode } from '../../base/index.ts';
import type { CopyLostWhy } from '../core/copy-records.ts';
import { journalIsBehind } from './check-journal.ts';
import type { CopyToLookFor, LookOutcome, PlaceAddress } from './copy-shapes.ts';
import { checkPlace, placeTrouble } from './place-marker.ts';

/**
 * Looks whether copies lie in a second place, each with its size. A place that goes away meanwhile has lost nothing: what
 * seems lost is believed only if it seems so again while the place is certainly there.
 */
export function lookAtCopies(address: PlaceAddress, copies: readonly CopyToLookFor[]): LookOutcome {
  const before = checkPlace(address);
  if (before.kind !== 'ready') return before;
  try {
    const suspects = copies.filter((copy) => lostWhy(address.folder, copy) !== null);
    const after = checkPlace(address);
    if (after.kind !== 'ready') return after;
    const lost = suspects.flatMap((copy) => {
      const why = lostWhy(address.folder, copy);
      return why === null ? [] : [{ arrival: copy.arrival, why }];
    });
    const isBehind = journalIsBehind(address);
    const last = checkPlace(address);
    return last.kind === 'ready' ? { kind: 'looked', lost, journalIsBehind: isBehind } : last;
  } catch (thrown) {
    return placeTrouble(thrown);
  }
}

/** Null where the copy is there. Throws where the place as a whole does not answer. */
function lostWhy(folder: string, { original, sizeBytes }: CopyToLookFor): CopyLostWhy | null {
  try {
    const found = lstatSync(join(folder, ...original.split('/')));
    return found.isFile() && found.size === sizeBytes ? null : 'size';
  } catch (thrown) {
    const code = errorCode(thrown);
    if (code === 'ENOENT' || code === 'ENOTDIR') return 'missing';
    if (placeTrouble(thrown).trouble === 'away') throw thrown;
    return 'unreadable';
  }
}
