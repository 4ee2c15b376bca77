import { constants } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import { join } from 'node:path';
import {
  algorithmsByPath,
  type BagFinding,
  type BagListing,
  judgeSums,
  readBag,
  type SumsRead,
} from '../bag/index.ts';
import { errorMessage, MiB, SetsideError } from '../base/index.ts';
import type { BagEar } from './bag-ear.ts';
import { listFolder } from './list-folder.ts';
import { readSums } from './read-sums.ts';

export interface BagReport {
  readonly folder: string;
  readonly version: string | null;
  /** Everything listed is there, nothing else is, and every checksum was read and fits (RFC 8493, section 3). */
  readonly valid: boolean;
  /** Of the payload. */
  readonly files: number;
  readonly bytes: number;
  readonly findings: readonly BagFinding[];
}

/** A manifest of half a million files fits; more is not read into memory. */
export const tagFileBytesMax = 128 * MiB;

/** Whether a folder is a valid bag. Changes nothing. Rejects `no-bag` where there is no folder that can be read. */
export async function checkBag(
  folder: string,
  { onProgress = () => {}, rest = async () => {} }: BagEar = {},
): Promise<BagReport> {
  const listing = await listingOf(folder);
  const tagBytes = await readTags(folder, listing);
  const { version, claims, findings, payload } = readBag(listing, (name, encoding) =>
    decoded(tagBytes.get(name), encoding),
  );
  const wanted = algorithmsByPath(claims);
  const bytes = [...wanted.keys()].reduce((sum, path) => sum + (listing.files.get(path)?.bytes ?? 0), 0);
  let doneBytes = 0;
  const sums = new Map<string, SumsRead>();
  for (const [path, algorithms] of wanted) {
    const read = await readSums(join(folder, path), algorithms, async (count) => {
      doneBytes += count;
      onProgress({ phase: 'reading', doneBytes, bytes, path });
      await rest();
    });
    sums.set(path, read);
  }
  const all = [...findings, ...judgeSums(claims, sums)];
  return { folder, version, valid: all.every(({ weight }) => weight !== 'bad'), ...payload, findings: all };
}

async function listingOf(folder: string): Promise<BagListing> {
  try {
    if (!(await stat(folder)).isDirectory()) throw new Error('it is no folder');
    return await listFolder(folder);
  } catch (cause) {
    throw new SetsideError('no-bag', `${folder} cannot be checked: ${errorMessage(cause)}`, {
      cause,
      cure: 'Name the folder that bagit.txt lies in. A packed bag (zip, tar) is unpacked first.',
    });
  }
}

/** The bytes of the tag files at the top; one that is too large or cannot be read is left out, and named as no text. */
async function readTags(folder: string, listing: BagListing): Promise<ReadonlyMap<string, Uint8Array>> {
  const tags = new Map<string, Uint8Array>();
  for (const [name, { bytes }] of listing.files) {
    if (name.includes('/') || !name.endsWith('.txt') || bytes > tagFileBytesMax) continue;
    try {
      const file = await open(join(folder, name), constants.O_RDONLY | constants.O_NOFOLLOW);
      try {
        tags.set(name, await file.readFile());
      } finally {
        await file.close();
      }
    } catch {
      // Left out: `bag.not-text` says so.
    }
  }
  return tags;
}

function decoded(bytes: Uint8Array | undefined, encoding: string): string | null {
  if (bytes === undefined) return null;
  try {
    return new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
