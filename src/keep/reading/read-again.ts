import { join } from 'node:path';
import { errorCode } from '../../base/index.ts';
import { badSegments } from '../copies/check-journal.ts';
import { isGivenUp } from '../copies/given-up.ts';
import { checkPlace } from '../copies/place-marker.ts';
import { readBack } from '../copies/read-back.ts';
import { copyFinding } from '../copies/verify-copies.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import { KeepState } from '../core/keep-state.ts';
import type { OriginalTrouble } from '../core/verified.ts';
import { replayJournal } from '../journal-reader.ts';
import { nodeDisk } from '../node-disk.ts';

/** One original and its copies, read just now. */
export interface FileReadAgain {
  readonly arrival: string;
  /** The journal's last record when the reading, or what went on with it, began. */
  readonly seq: number;
  /** What was read of it, copies too. */
  readonly bytes: number;
  /** Null where the original is as it was received. */
  readonly trouble: OriginalTrouble | null;
  /** Places whose copy is not as it was made. */
  readonly badIn: readonly string[];
  /** So much there is in all, and so much of it lies behind: this file counted. */
  readonly doneFiles: number;
  readonly files: number;
  readonly doneBytes: number;
  readonly allBytes: number;
}

export interface PlaceReadAgain {
  readonly place: string;
  readonly folder: string;
  /** Copies that should be there. */
  readonly files: number;
  /** False where it was away, or went away meanwhile. */
  readonly wasRead: boolean;
  readonly journalIsBad: boolean;
}

export interface ReadAgainEnd {
  /** The journal's last record when the reading began. */
  readonly seq: number;
  readonly files: number;
  readonly bytes: number;
  readonly places: readonly PlaceReadAgain[];
}

export interface ReadAgainOptions {
  readonly home: string;
  /** Goes on behind this original, in the order of the journal; null from the first. One that is not known begins anew. */
  readonly after: string | null;
  readonly memoryCounts: boolean;
  /** Folders of the second places in use: one that is given up is not read. Left out: all that were ever used. */
  readonly inUse?: readonly string[];
}

/**
 * Reads every original and every copy again, file by file, past the system's memory where that can be: as `verifyOriginals` and
 * `verifyCopies` together, but so that it can rest after each file (`rest`) and go on after a restart. Changes nothing. What was
 * kept after it began is not looked at. A place that is away, or goes away, is not read, and nothing is said of its copies.
 */
export async function readAgain(
  { home, after, memoryCounts, inUse }: ReadAgainOptions,
  tell: (read: FileReadAgain) => void,
  rest: (tookMs: number) => Promise<void>,
): Promise<ReadAgainEnd> {
  const state = new KeepState();
  const { nextSeq } = await replayJournal(nodeDisk(), join(home, 'journal'), (record) => state.apply(record));
  const used = new Set(
    [...state.usedPlaces].filter((place) => !isGivenUp(state.places.get(place) ?? '', inUse)),
  );
  const kept = [...state.arrivals.values()].flatMap(({ phase, replacedBy, copiedTo }) =>
    phase.kind === 'kept' && replacedBy === null
      ? [{ file: phase.file, copiedTo: copiedTo.filter((place) => used.has(place)) }]
      : [],
  );
  const folderOf = (place: string): string => state.places.get(place) ?? '';
  const isThere = (place: string): boolean =>
    checkPlace({ home, folder: folderOf(place), place, memoryCounts }).kind !== 'place';
  const there = new Set([...used].filter(isThere));
  const bytesOf = ({ file, copiedTo }: (typeof kept)[number]): number =>
    file.sizeBytes * (1 + copiedTo.length);
  const allBytes = kept.reduce((sum, each) => sum + bytesOf(each), 0);
  const first = kept.findIndex(({ file }) => file.arrival === after) + 1;
  let doneBytes = kept.slice(0, first).reduce((sum, each) => sum + bytesOf(each), 0);
  for (const [index, each] of kept.entries()) {
    if (index < first) continue;
    const { file, copiedTo } = each;
    const beganMs = performance.now();
    const trouble = originalTrouble(home, file);
    const badIn: string[] = [];
    for (const place of copiedTo) {
      if (!there.has(place) || copyFinding(folderOf(place), file) === null) continue;
      // A disk that was taken off holds no bad copy.
      if (isThere(place)) badIn.push(place);
      else there.delete(place);
    }
    doneBytes += bytesOf(each);
    const far = { doneFiles: index + 1, files: kept.length, doneBytes, allBytes };
    tell({ arrival: file.arrival, seq: nextSeq - 1, bytes: bytesOf(each), trouble, badIn, ...far });
    await rest(performance.now() - beganMs);
  }
  const places = [...used].map((place): PlaceReadAgain => {
    const folder = folderOf(place);
    const files = kept.filter(({ copiedTo }) => copiedTo.includes(place)).length;
    const wasRead = there.has(place) && isThere(place);
    return { place, folder, files, wasRead, journalIsBad: wasRead && isJournalBad(home, folder) };
  });
  return { seq: nextSeq - 1, files: kept.length, bytes: allBytes, places };
}

function originalTrouble(home: string, { original, sizeBytes, sha256 }: KeptFile): OriginalTrouble | null {
  try {
    const read = readBack(join(home, ...original.split('/')));
    return read.sizeBytes === sizeBytes && read.sha256 === sha256 ? null : 'differs';
  } catch (thrown) {
    return errorCode(thrown) === 'ENOENT' ? 'missing' : 'unreadable';
  }
}

/** A segment that is not there is noticed by the station and made anew; where the home's is the bad one, the copy is not. */
function isJournalBad(home: string, folder: string): boolean {
  return badSegments({ home, folder }).some(
    ({ finding }) => finding.code !== 'copy.journal-missing' && finding.code !== 'copy.holds-journal',
  );
}
