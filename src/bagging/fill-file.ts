import { createHash, type Hash } from 'node:crypto';
import { constants } from 'node:fs';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import { dirname } from 'node:path';
import { MiB, SetsideError } from '../base/index.ts';
import type { BagSource } from './bag-source.ts';

/** A file of the bag with what was written. */
export interface Filled {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly sha512: string;
}

/**
 * Brings a source's bytes to `to`, under another name until they are all synced. Rejects `bag-source-altered` where they
 * are not those that were kept: a bag must not make a damaged original look sound.
 */
export async function fillFile(
  { from, sha256, path }: BagSource,
  to: string,
  onBytes: (bytes: number) => Promise<void>,
): Promise<Omit<Filled, 'path'>> {
  await mkdir(dirname(to), { recursive: true });
  const part = `${to}.part`;
  const written =
    'text' in from ? await writeSynced(part, from.text) : await copySynced(from.file, part, onBytes);
  if (sha256 !== null && written.sha256 !== sha256) {
    await rm(part);
    throw new SetsideError('bag-source-altered', `${path} is not as it was kept`, {
      cure: 'Run: setside verify. It says which second place holds a good copy and how to put it back; then run this again, it goes on.',
    });
  }
  await rename(part, to);
  return written;
}

/** Writes a text, synced, in place of what was there. */
export async function writeSynced(to: string, text: string): Promise<Omit<Filled, 'path'>> {
  const sums = new BothSums();
  const bytes = new TextEncoder().encode(text);
  sums.update(bytes);
  const file = await open(to, 'w');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
  return sums.digest();
}

async function copySynced(
  from: string,
  to: string,
  onBytes: (bytes: number) => Promise<void>,
): Promise<Omit<Filled, 'path'>> {
  const sums = new BothSums();
  const source = await open(from, constants.O_RDONLY | constants.O_NOFOLLOW);
  try {
    const file = await open(to, 'w');
    try {
      const piece = new Uint8Array(4 * MiB);
      for (;;) {
        const { bytesRead } = await source.read(piece, 0, piece.length, null);
        if (bytesRead === 0) break;
        const read = piece.subarray(0, bytesRead);
        sums.update(read);
        await file.writeFile(read);
        await onBytes(bytesRead);
      }
      await file.sync();
    } finally {
      await file.close();
    }
  } finally {
    await source.close();
  }
  return sums.digest();
}

class BothSums {
  #bytes = 0;
  readonly #short: Hash = createHash('sha256');
  readonly #long: Hash = createHash('sha512');

  update(piece: Uint8Array): void {
    this.#bytes += piece.length;
    this.#short.update(piece);
    this.#long.update(piece);
  }

  digest(): Omit<Filled, 'path'> {
    return { bytes: this.#bytes, sha256: this.#short.digest('hex'), sha512: this.#long.digest('hex') };
  }
}
