import { statSync } from 'node:fs';
import { join } from 'node:path';
import { errorCode, errorMessage } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { KeepState } from '../core/keep-state.ts';
import type { KeptFile } from '../core/records.ts';
import { replayJournal } from '../journal-reader.ts';
import { nodeDisk } from '../node-disk.ts';
import type { VerifyProgress } from '../verify.ts';
import { checkPlace } from './place-marker.ts';
import { readBack } from './read-back.ts';

export interface CopiesReport {
  readonly folder: string;
  /** Copies that should be there, by the journal. */
  readonly files: number;
  readonly bytes: number;
  /** `copy.missing`, `copy.altered`, `copy.unreadable`; `copy.away`, `copy.foreign`, `copy.failed` for all of them. */
  readonly findings: readonly Finding[];
}

/**
 * Reads every copy in every second place again, past the memory of the system where that can be, and compares it with
 * the journal. Changes nothing. Takes the calling thread; meant for a command. Rejects where the journal cannot be read.
 */
export async function verifyCopies(
  home: string,
  onProgress: (progress: VerifyProgress) => void = () => {},
): Promise<CopiesReport[]> {
  const state = new KeepState();
  await replayJournal(nodeDisk(), join(home, 'journal'), (record) => state.apply(record));
  return [...state.usedPlaces].map((place) => {
    const folder = state.places.get(place) ?? '';
    const files = filesIn(state, place);
    const bytes = files.reduce((sum, file) => sum + file.sizeBytes, 0);
    const check = checkPlace({ home, folder, place });
    if (check.kind === 'place') {
      const args = check.trouble === 'failed' ? { folder, why: check.why } : { folder };
      return { folder, files: files.length, bytes, findings: [{ code: `copy.${check.trouble}`, args }] };
    }
    let doneBytes = 0;
    const findings = files.flatMap((file, doneFiles) => {
      onProgress({ doneFiles, files: files.length, doneBytes, bytes, original: file.original });
      doneBytes += file.sizeBytes;
      return verifyOne(folder, file) ?? [];
    });
    return { folder, files: files.length, bytes, findings };
  });
}

function filesIn(state: KeepState, place: string): KeptFile[] {
  return [...state.arrivals.values()].flatMap(({ phase, copiedTo }) =>
    phase.kind === 'kept' && copiedTo.includes(place) ? [phase.file] : [],
  );
}

function verifyOne(folder: string, { original, sizeBytes, sha256 }: KeptFile): Finding | null {
  const path = join(folder, ...original.split('/'));
  try {
    const same = statSync(path).size === sizeBytes && readBack(path).sha256 === sha256;
    return same ? null : { code: 'copy.altered', args: { original, folder } };
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return { code: 'copy.missing', args: { original, folder } };
    return { code: 'copy.unreadable', args: { original, folder, why: errorMessage(thrown) } };
  }
}
