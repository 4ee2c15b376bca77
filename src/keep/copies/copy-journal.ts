import { createHash } from 'node:crypto';
import { closeSync, existsSync, fdatasyncSync, openSync, readdirSync, readSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { KiB, MiB } from '../../base/index.ts';
import { parseSegmentFileName } from '../core/segment-name.ts';
import { writeAll } from './copy-file.ts';
import type { JournalOutcome, PlaceAddress } from './copy-shapes.ts';
import { checkPlace, placeTrouble } from './place-marker.ts';
import { blockBytes, readBack } from './read-back.ts';
import { isSounderCopy } from './segment-health.ts';
import { putAside } from './set-aside.ts';
import { makeFolderDurably, syncFolder } from './sync-folder.ts';

/** So much of the end of what is there is compared before more is put behind it. */
const seamBytes = 64 * KiB;

/**
 * Brings the journal of a second place up to the home's. Segments are only ever appended to, so each is carried on
 * from where the copy ends; one that does not fit its source is set aside and copied from its start. Unless it is the
 * source that is damaged: a copy that can be read stays, and is carried on where it is shorter.
 */
export function copyJournal(address: PlaceAddress): JournalOutcome {
  const check = checkPlace(address);
  if (check.kind !== 'ready') return check;
  const from = join(address.home, 'journal');
  const to = join(address.folder, 'journal');
  try {
    makeFolderDurably(to);
    let same = true;
    for (const name of readdirSync(from)
      .filter((entry) => parseSegmentFileName(entry) !== null)
      .sort()) {
      same = copySegment(address.folder, join(from, name), join(to, name)) && same;
    }
    syncFolder(to);
    return same ? { kind: 'copied' } : { kind: 'differs' };
  } catch (thrown) {
    return placeTrouble(thrown);
  }
}

/** False where what was read back is not what was written. */
function copySegment(place: string, source: string, target: string): boolean {
  const wanted = statSync(source).size;
  const there = sizeOf(target);
  const fits = there <= wanted && sameSeam(source, target, there);
  if (fits && there === wanted) return true;
  const stays = fits || isSounderCopy(target, source);
  if (stays && there >= wanted) return true;
  if (!stays) putAside(place, target);
  const from = stays ? there : 0;
  const firstBlock = from - (from % blockBytes);
  const hash = createHash('sha256');
  if (from > firstBlock) hash.update(readPart(target, firstBlock, from - firstBlock));
  const sha256 = hash.update(readPart(source, from, wanted - from)).digest('hex');
  append(source, target, from, wanted);
  return readBack(target, firstBlock).sha256 === sha256;
}

function sizeOf(path: string): number {
  return existsSync(path) ? statSync(path).size : 0;
}

function sameSeam(source: string, target: string, length: number): boolean {
  const start = Math.max(0, length - seamBytes);
  return (
    length === 0 || readPart(source, start, length - start).equals(readPart(target, start, length - start))
  );
}

function append(source: string, target: string, from: number, to: number): void {
  const file = openSync(target, existsSync(target) ? 'r+' : 'wx');
  try {
    for (let done = from; done < to; ) {
      const part = readPart(source, done, Math.min(4 * MiB, to - done));
      writeAll(file, part, part.length, done);
      done += part.length;
    }
    fdatasyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Throws where the file is shorter than asked for: segments only grow. */
function readPart(path: string, from: number, length: number): Buffer {
  const part = Buffer.alloc(length);
  const file = openSync(path, 'r');
  try {
    for (let done = 0; done < length; ) {
      const got = readSync(file, part, done, length - done, from + done);
      if (got === 0) throw new Error(`${path} became shorter while it was copied`);
      done += got;
    }
    return part;
  } finally {
    closeSync(file);
  }
}
