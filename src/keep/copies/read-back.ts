import { createHash } from 'node:crypto';
import { closeSync, constants, openSync, readSync } from 'node:fs';
import { errorCode, KiB, MiB } from '../../base/index.ts';
import type { ReadBackMethod } from '../core/copy-records.ts';

export interface ReadBack {
  readonly sha256: string;
  /** What was read. */
  readonly sizeBytes: number;
  readonly method: ReadBackMethod;
}

/** A multiple of every block size that a device asks for. */
export const blockBytes = 64 * KiB;
const chunkBytes = 4 * MiB;

/**
 * Reads a file from its device and hashes it, from a multiple of {@link blockBytes} to its end. O_DIRECT goes past the system's memory of what was just written
 * (open(2)); it wants memory, offset and length in whole blocks, which WebAssembly's memory gives: it begins at a page.
 * Where the system or the file system has no such way, it is read plainly, and the method says so.
 * Throws what the system rejects.
 */
export function readBack(path: string, fromBytes = 0): ReadBack {
  if (process.platform === 'linux') {
    try {
      return hashFrom(path, fromBytes, constants.O_DIRECT, 'direct');
    } catch (thrown) {
      if (!['EINVAL', 'ENOTSUP'].includes(errorCode(thrown))) throw thrown;
    }
  }
  return hashFrom(path, fromBytes, 0, 'cached');
}

function hashFrom(path: string, fromBytes: number, flag: number, method: ReadBackMethod): ReadBack {
  const file = openSync(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | flag);
  try {
    const chunk = alignedChunk();
    const hash = createHash('sha256');
    let sizeBytes = 0;
    for (;;) {
      const got = readSync(file, chunk, 0, chunkBytes, fromBytes + sizeBytes);
      if (got === 0) break;
      hash.update(chunk.subarray(0, got));
      sizeBytes += got;
    }
    return { sha256: hash.digest('hex'), sizeBytes, method };
  } finally {
    closeSync(file);
  }
}

let chunkMemory: Uint8Array | null = null;

/** One for the process: it copies one file at a time. */
function alignedChunk(): Uint8Array {
  const wasmPageBytes = 64 * KiB;
  chunkMemory ??= new Uint8Array(new WebAssembly.Memory({ initial: chunkBytes / wasmPageBytes }).buffer);
  return chunkMemory;
}
