import { createHash } from 'node:crypto';
import { closeSync, existsSync, lstatSync, openSync, readdirSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { errorMessage, MiB } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { parseSegmentFileName } from '../core/segment-name.ts';
import type { CopyWay } from './copy-shapes.ts';
import { readBack } from './read-back.ts';
import { badLines, isSounderCopy } from './segment-health.ts';

/** Whether a segment of the home's journal lies not in the place, or not in its size. Reads none. Throws what the system rejects. */
export function journalIsBehind({ home, folder }: CopyWay): boolean {
  return segmentsOf(home).some((name) => {
    const there = lstatSync(join(folder, 'journal', name), { throwIfNoEntry: false });
    return there?.size !== lstatSync(join(home, 'journal', name)).size;
  });
}

/** A segment whose copy is bad. */
export interface BadSegment {
  readonly name: string;
  /** `copy.journal-missing`, `copy.journal-altered`, `copy.journal-unreadable`; `copy.holds-journal` where the copy is the good one. */
  readonly finding: Finding;
}

/**
 * Reads the copy of the journal in a place and holds it against the home's. A copy that is only shorter is none too bad:
 * it is carried on by the station, as is the newest segment where older ones are there. One that can be read where the
 * home's cannot is what the home's is to be mended from.
 */
export function badSegments({ home, folder }: CopyWay): BadSegment[] {
  const names = segmentsOf(home);
  const holds = (name: string): BadSegment => ({
    name,
    finding: { code: 'copy.holds-journal', args: { folder, name, home } },
  });
  const bad = names.flatMap((name, index) => {
    const path = join(folder, 'journal', name);
    if (!existsSync(path)) {
      const isNew = index > 0 && index === names.length - 1;
      return isNew ? [] : [{ name, finding: { code: 'copy.journal-missing', args: { folder, name } } }];
    }
    try {
      const { sha256, sizeBytes } = readBack(path);
      const here = join(home, 'journal', name);
      const same = sha256 === hashOfStart(here, sizeBytes);
      if (!same && isSounderCopy(path, here)) return [holds(name)];
      return same ? [] : [{ name, finding: { code: 'copy.journal-altered', args: { folder, name } } }];
    } catch (thrown) {
      const args = { folder, name, why: errorMessage(thrown) };
      return [{ name, finding: { code: 'copy.journal-unreadable', args } }];
    }
  });
  return [...goneFrom(names, folder).map(holds), ...bad];
}

/** Segments that the home has lost and a place still holds whole: older than its newest. */
function goneFrom(names: readonly string[], folder: string): string[] {
  const newest = names.at(-1) ?? '';
  return segmentsOf(folder).filter(
    (name) => name < newest && !names.includes(name) && badLines(join(folder, 'journal', name)) === 0,
  );
}

function segmentsOf(home: string): string[] {
  const folder = join(home, 'journal');
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => parseSegmentFileName(name) !== null)
    .sort();
}

/** SHA-256 of a file's first bytes; null where it has fewer. */
function hashOfStart(path: string, sizeBytes: number): string | null {
  const file = openSync(path, 'r');
  try {
    const hash = createHash('sha256');
    const chunk = Buffer.allocUnsafe(MiB);
    for (let done = 0; done < sizeBytes; ) {
      const got = readSync(file, chunk, 0, Math.min(chunk.length, sizeBytes - done), done);
      if (got === 0) return null;
      hash.update(chunk.subarray(0, got));
      done += got;
    }
    return hash.digest('hex');
  } finally {
    closeSync(file);
  }
}
