import { lstatSync } from 'node:fs';
import { join } from 'node:path';
import { errorCode, errorMessage } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import { KeepState } from '../core/keep-state.ts';
import { replayJournal } from '../journal-reader.ts';
import { nodeDisk } from '../node-disk.ts';
import type { VerifyProgress } from '../verify.ts';
import { badSegments } from './check-journal.ts';
import { isGivenUp } from './given-up.ts';
import { checkPlace } from './place-marker.ts';
import { readBack } from './read-back.ts';
import { putAside } from './set-aside.ts';

export interface CopiesReport {
  readonly folder: string;
  /** Copies that should be there, by the journal; without those of replaced originals. */
  readonly files: number;
  readonly bytes: number;
  /** Copies of originals that others stand for now: read like all, and counted apart. */
  readonly ofReplaced: number;
  /** `copy.missing`, `copy.size`, `copy.altered`, `copy.unreadable`; `copy.journal-missing`,
   * `copy.journal-altered`, `copy.journal-unreadable`, `copy.holds-journal`; `copy.away`, `copy.foreign`, `copy.failed` for all of them. */
  readonly findings: readonly Finding[];
  /** Bad copies that were set aside, so that new ones are made. */
  readonly setAside: number;
  /** Id of the place. */
  readonly place: string;
  /** It is a second place no more: only copies of bad originals were read there. */
  readonly isGivenUp: boolean;
  /** False where the place was away, is given up, or could not be read as a whole. */
  readonly wasRead: boolean;
  /** The copies that are not as they were made, by arrival; also those set aside, until there are new ones. */
  readonly bad: readonly string[];
  /** The journal's copy is not as it should be, and was not set aside. */
  readonly journalIsBad: boolean;
  /** Of the bad originals that were named, those whose copy here was read and is as received. */
  readonly holds: readonly string[];
}

export interface VerifyCopiesOptions {
  /** Default: false, nothing is changed. */
  readonly mend?: boolean;
  /** Originals that cannot be copied anew, below the home: their copies are never set aside. Default: none. */
  readonly badOriginals?: ReadonlySet<string>;
  /** Folders of the second places in use. Left out: all that were ever used. */
  readonly inUse?: readonly string[];
}

/**
 * Reads every copy in every second place again, and that of the journal, past the memory of the system where that can be, and compares it with
 * the journal. Takes the calling thread; meant for a command. Rejects where the journal cannot be read.
 *
 * With `mend`, a copy that is not as it was made is set aside in its place: the station that runs, or the next one, finds
 * it gone, lets it count no more and makes another. It is the station's journal, so this writes nothing into it. Without
 * `mend` nothing is changed.
 */
export async function verifyCopies(
  home: string,
  onProgress: (progress: VerifyProgress) => void = () => {},
  { mend = false, badOriginals = new Set(), inUse }: VerifyCopiesOptions = {},
): Promise<CopiesReport[]> {
  const state = new KeepState();
  await replayJournal(nodeDisk(), join(home, 'journal'), (record) => state.apply(record));
  return [...state.usedPlaces].map((place) => {
    const folder = state.places.get(place) ?? '';
    const files = state.copiesIn(place);
    const standing = files.filter(({ arrival }) => state.arrivals.get(arrival)?.replacedBy === null);
    const ofReplaced = files.length - standing.length;
    const bytes = standing.reduce((sum, file) => sum + file.sizeBytes, 0);
    const isOut = isGivenUp(folder, inUse);
    const read = { files: standing.length, bytes, ofReplaced, isGivenUp: isOut };
    const allBytes = files.reduce((sum, file) => sum + file.sizeBytes, 0);
    const check = checkPlace({ home, folder, place });
    if (isOut) {
      const sought =
        check.kind === 'place' ? [] : standing.filter(({ original }) => badOriginals.has(original));
      const holds = sought
        .filter((file) => copyFinding(folder, file) === null)
        .map(({ original }) => original);
      const unread = { wasRead: false, setAside: 0, holds, bad: [], journalIsBad: false };
      return { folder, place, ...read, findings: [], ...unread };
    }
    if (check.kind === 'place') {
      const args = check.trouble === 'failed' ? { folder, why: check.why } : { folder };
      const findings = [{ code: `copy.${check.trouble}`, args }];
      const unread = { wasRead: false, setAside: 0, holds: [], bad: [], journalIsBad: false };
      return { folder, place, ...read, findings, ...unread };
    }
    let doneBytes = 0;
    let setAside = 0;
    let journalIsBad = false;
    const holds: string[] = [];
    const bad: string[] = [];
    const findings = files.flatMap((file, doneFiles) => {
      onProgress({ doneFiles, files: files.length, doneBytes, bytes: allBytes, original: file.original });
      doneBytes += file.sizeBytes;
      const finding = copyFinding(folder, file);
      const isLast = badOriginals.has(file.original);
      if (finding === null && isLast) holds.push(file.original);
      if (finding === null) return [];
      bad.push(file.arrival);
      if (!mend || isLast || finding.code === 'copy.missing') return [finding];
      const trouble = asideOrTrouble(folder, file);
      if (trouble === null) setAside += 1;
      return trouble === null ? [finding] : [finding, trouble];
    });
    for (const { name, finding } of badSegments({ home, folder })) {
      findings.push(finding);
      // One that is not there is noticed by the station, and made anew.
      if (finding.code === 'copy.journal-missing') continue;
      // Here it is the home's that is bad: what it is to be mended from stays where it is.
      if (finding.code === 'copy.holds-journal') continue;
      const trouble = mend ? asideOrTrouble(folder, { original: `journal/${name}` }) : null;
      if (mend && trouble === null) setAside += 1;
      else journalIsBad = true;
      if (trouble !== null) findings.push(trouble);
    }
    const found = { setAside, holds, bad, journalIsBad };
    return { folder, place, ...read, findings, wasRead: true, ...found };
  });
}

function asideOrTrouble(folder: string, { original }: Pick<KeptFile, 'original'>): Finding | null {
  try {
    putAside(folder, join(folder, ...original.split('/')));
    return null;
  } catch (thrown) {
    return { code: 'copy.not-set-aside', args: { original, folder, why: errorMessage(thrown) } };
  }
}

/** What is wrong with one copy, read now: `copy.missing`, `copy.size`, `copy.altered`, `copy.unreadable`; null where it is as it was made. */
export function copyFinding(folder: string, { original, sizeBytes, sha256 }: KeptFile): Finding | null {
  const path = join(folder, ...original.split('/'));
  try {
    const found = lstatSync(path);
    if (found.isFile() && found.size !== sizeBytes) {
      const sizes = { sizeBytes: found.size, expectedBytes: sizeBytes };
      return { code: 'copy.size', args: { original, folder, ...sizes } };
    }
    const same = found.isFile() && readBack(path).sha256 === sha256;
    return same ? null : { code: 'copy.altered', args: { original, folder } };
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return { code: 'copy.missing', args: { original, folder } };
    return { code: 'copy.unreadable', args: { original, folder, why: errorMessage(thrown) } };
  }
}
