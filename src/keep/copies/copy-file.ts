import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  fdatasyncSync,
  fstatSync,
  lstatSync,
  openSync,
  readSync,
  renameSync,
  statfsSync,
  writeSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { errorCode, errorMessage, MiB } from '../../base/index.ts';
import type { CopyOutcome, FileToCopy, PlaceAddress } from './copy-shapes.ts';
import { checkPlace, placeTrouble } from './place-marker.ts';
import { type ReadBack, readBack } from './read-back.ts';
import { placeFloorBytes } from './room-left.ts';
import { putAside } from './set-aside.ts';
import { makeFolderDurably, syncFolder } from './sync-folder.ts';

const chunkBytes = 4 * MiB;

/**
 * Copies one original to a second place, as {@link bring} does. Calls of the system are plain ones that wait: this runs in
 * a process of its own, so that a disk that does not answer holds up nothing but its own copies.
 */
export function copyFile(address: PlaceAddress, file: FileToCopy, reread = readBack): CopyOutcome {
  const check = checkPlace(address);
  if (check.kind !== 'ready') return check;
  const otherDevice = check.lies === 'apart';
  const brought = bring(address.home, address.folder, file, reread);
  if (brought.kind !== 'brought') return brought;
  const { method, wasThere } = brought;
  return { kind: 'copied', readBack: method, otherDevice, originalRead: !wasThere };
}

/** One file brought from one folder to the same place below another. */
export type BringOutcome =
  | {
      readonly kind: 'brought';
      readonly method: ReadBack['method'];
      /** It lay there already, as it should be; nothing was done. */
      readonly wasThere: boolean;
      /** Where what lay under its name was moved, absolute; null where nothing did. */
      readonly aside: string | null;
    }
  | Exclude<CopyOutcome, { readonly kind: 'copied' }>;

/**
 * Brings one file from below `from` to below `to`: written under another name, synced, read back, compared, and only then
 * given its own name. Nothing that lies there is written over: it is put aside, and not before what takes its place is good.
 */
export function bring(from: string, to: string, file: FileToCopy, reread = readBack): BringOutcome {
  const source = join(from, ...file.original.split('/'));
  const target = join(to, ...file.original.split('/'));
  try {
    const isTaken = lstatSync(target, { throwIfNoEntry: false }) !== undefined;
    const there = isTaken ? readThere(target, file, reread) : null;
    if (there !== null) return { kind: 'brought', method: there.method, wasThere: true, aside: null };
    const { bavail, bsize } = statfsSync(to);
    if (bavail * bsize < file.sizeBytes + placeFloorBytes)
      return { kind: 'place', trouble: 'full', why: 'no room' };
    const arriving = join(to, 'arriving', file.arrival);
    const original = writeCopy(source, arriving, file);
    if (original !== null) return original;
    const written = reread(arriving);
    if (!isSame(written, file)) return { kind: 'differs' };
    makeFolderDurably(dirname(target));
    const aside = isTaken ? putAside(to, target) : null;
    renameSync(arriving, target);
    syncFolder(dirname(target));
    syncFolder(dirname(arriving));
    return { kind: 'brought', method: written.method, wasThere: false, aside };
  } catch (thrown) {
    return placeTrouble(thrown);
  }
}

/** What lies there already, where it is the copy; null where it is something else, or cannot be read any more. */
function readThere(path: string, file: FileToCopy, reread: typeof readBack): ReadBack | null {
  const found = lstatSync(path);
  if (!found.isFile() || found.size !== file.sizeBytes) return null;
  try {
    const there = reread(path);
    return isSame(there, file) ? there : null;
  } catch (thrown) {
    // A sector that cannot be read costs this copy alone; a place that is gone, all of them.
    if (placeTrouble(thrown).trouble === 'away') throw thrown;
    return null;
  }
}

function isSame(read: ReadBack, file: FileToCopy): boolean {
  return read.sha256 === file.sha256 && read.sizeBytes === file.sizeBytes;
}

/** Only an original that was read as it was received may be doubled. */
type OriginalOutcome = Extract<CopyOutcome, { readonly kind: `original-${string}` }>;

/** Writes and syncs the copy, and hashes in passing what is read; null where that is what was received. */
function writeCopy(
  source: string,
  target: string,
  { sizeBytes, sha256 }: FileToCopy,
): OriginalOutcome | null {
  const from = ofOriginal(() => openSync(source, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0)));
  if (typeof from !== 'number') return from;
  try {
    const size = ofOriginal(() => fstatSync(from).size);
    if (typeof size !== 'number') return size;
    if (size !== sizeBytes) return { kind: 'original-differs' };
    makeFolderDurably(dirname(target));
    // What an earlier attempt left under this name is a part of the same bytes.
    const to = openSync(target, 'w');
    try {
      const hash = createHash('sha256');
      const chunk = Buffer.allocUnsafe(Math.min(chunkBytes, Math.max(1, sizeBytes)));
      for (let done = 0; ; ) {
        const got = ofOriginal(() => readSync(from, chunk, 0, chunk.length, done));
        if (typeof got !== 'number') return got;
        if (got === 0) break;
        hash.update(chunk.subarray(0, got));
        writeAll(to, chunk, got, done);
        done += got;
      }
      fdatasyncSync(to);
      return hash.digest('hex') === sha256 ? null : { kind: 'original-differs' };
    } finally {
      closeSync(to);
    }
  } finally {
    closeSync(from);
  }
}

/** What the home's disk gives, or what its refusal means for the original: it says nothing of the second place. */
function ofOriginal(call: () => number): number | OriginalOutcome {
  try {
    return call();
  } catch (thrown) {
    if (['ENOENT', 'ENOTDIR'].includes(errorCode(thrown))) return { kind: 'original-missing' };
    return { kind: 'original-unreadable', why: errorMessage(thrown) };
  }
}

/** A system may write less than it was given; the next call says why. */
export function writeAll(file: number, bytes: Uint8Array, length: number, position: number): void {
  let done = 0;
  while (done < length) done += writeSync(file, bytes, done, length - done, position + done);
}
