import { join } from 'node:path';
import { errorMessage } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import type { KeptFile } from './core/arrival-records.ts';
import { KeepState } from './core/keep-state.ts';
import type { OriginalTrouble } from './core/verified.ts';
import type { Disk } from './disk.ts';
import type { HashSession } from './hash-session.ts';
import { openHashing } from './hashing.ts';
import { heldInIncoming, type IncomingHeld } from './incoming-held.ts';
import { replayJournal } from './journal-reader.ts';
import { nodeDisk } from './node-disk.ts';

export interface VerifyProgress {
  readonly doneFiles: number;
  readonly files: number;
  readonly doneBytes: number;
  readonly bytes: number;
  /** The original looked at now, below the home. */
  readonly original: string;
}

export interface VerifyReport {
  readonly files: number;
  readonly bytes: number;
  /** How much lies in `incoming/`, and why. */
  readonly incoming: readonly IncomingHeld[];
  /** `keep.original-missing`, `keep.original-size`, `keep.original-altered`, `keep.original-unreadable`, `keep.journal-damaged`. */
  readonly findings: readonly Finding[];
  /** Originals that were gone or altered when the camera sent the same bytes again, below the home: not read any more. */
  readonly replaced: readonly string[];
  /** How many originals no second place has a copy of, by the journal; null where there was never a second place. */
  readonly inOnePlace: number | null;
  /** The originals among them, by arrival. */
  readonly bad: readonly BadOriginal[];
  /** The journal's last record when it was read. */
  readonly seq: number;
}

/** An original that is not as it was received. */
export interface BadOriginal {
  readonly arrival: string;
  /** Below the home. */
  readonly original: string;
  readonly trouble: OriginalTrouble;
}

/**
 * Reads every original again and compares its size and SHA-256 with the journal. Changes nothing and claims nothing,
 * so that it may run beside a station; a file kept after it began is not looked at.
 * `onProgress` is called before each original. Rejects where the journal itself cannot be read.
 */
export async function verifyOriginals(
  home: string,
  onProgress: (progress: VerifyProgress) => void = () => {},
  disk: Disk = nodeDisk(),
): Promise<VerifyReport> {
  const state = new KeepState();
  const end = await replayJournal(disk, join(home, 'journal'), (record) => state.apply(record));
  const kept = [...state.arrivals.values()].flatMap(({ phase, replacedBy }) =>
    phase.kind === 'kept' ? [{ file: phase.file, replacedBy }] : [],
  );
  const files = kept.flatMap(({ file, replacedBy }) => (replacedBy === null ? [file] : []));
  const replaced = kept.flatMap(({ file, replacedBy }) => (replacedBy === null ? [] : [file.original]));
  const bytes = files.reduce((sum, file) => sum + file.sizeBytes, 0);
  const alone = files.filter(({ arrival }) => state.arrivals.get(arrival)?.copiedTo.length === 0).length;
  const inOnePlace = state.places.size === 0 ? null : alone;
  const findings: Finding[] = end.damage.map(({ seqFrom, seqTo }) => ({
    code: 'keep.journal-damaged',
    // Whoever reads this need not be told to run what he has run.
    args: { seqFrom, seqTo, count: seqTo - seqFrom + 1, by: 'verify' },
  }));
  const hashing = openHashing(disk, 0);
  const bad: BadOriginal[] = [];
  let doneBytes = 0;
  for (const [doneFiles, file] of files.entries()) {
    onProgress({ doneFiles, files: files.length, doneBytes, bytes, original: file.original });
    const finding = await verifyOne(disk, home, file, hashing.begin());
    if (finding !== null) findings.push(finding);
    if (finding !== null) bad.push({ ...about(file), trouble: troubles[finding.code] ?? 'differs' });
    doneBytes += file.sizeBytes;
  }
  const incoming = await heldInIncoming(disk, join(home, 'incoming'), state);
  const seq = end.nextSeq - 1;
  return { files: files.length, bytes, incoming, findings, replaced, inOnePlace, bad, seq };
}

const troubles: Readonly<Partial<Record<string, OriginalTrouble>>> = {
  'keep.original-missing': 'missing',
  'keep.original-unreadable': 'unreadable',
};

function about({ arrival, original }: KeptFile): Pick<BadOriginal, 'arrival' | 'original'> {
  return { arrival, original };
}

async function verifyOne(
  disk: Disk,
  home: string,
  file: KeptFile,
  hash: HashSession,
): Promise<Finding | null> {
  const path = join(home, ...file.original.split('/'));
  const { original, sizeBytes } = file;
  try {
    const entry = await disk.stat(path);
    if (entry === null) return { code: 'keep.original-missing', args: { original } };
    if (entry.sizeBytes !== sizeBytes) {
      return {
        code: 'keep.original-size',
        args: { original, sizeBytes: entry.sizeBytes, expectedBytes: sizeBytes },
      };
    }
    await hash.updateFromFile(path, sizeBytes);
    const sha256 = await hash.digest();
    return sha256 === file.sha256 ? null : { code: 'keep.original-altered', args: { original, sha256 } };
  } catch (cause) {
    return { code: 'keep.original-unreadable', args: { original, why: errorMessage(cause) } };
  } finally {
    hash.end();
  }
}
