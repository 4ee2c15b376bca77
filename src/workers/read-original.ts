import { open } from 'node:fs/promises';
import type { SetsideError } from '../base/index.ts';

/**
 * All bytes of a file, if there are no more than `bytesMax`; the size is asked before anything is allocated. They lie in
 * `buffer` until it is used again.
 * Errors: what `tooLarge` makes for more, the system's own (`ENOENT` …) otherwise.
 */
export async function readOriginal(
  path: string,
  bytesMax: number,
  tooLarge: () => SetsideError,
  buffer: ReadBuffer = new ReadBuffer(),
): Promise<Uint8Array> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    if (size > bytesMax) throw tooLarge();
    const bytes = buffer.take(size);
    let end = 0;
    while (end < size) {
      const { bytesRead } = await file.read(bytes, end, size - end, end);
      // Shorter than it said: somebody cuts it at this moment. What is there is judged like any cut file.
      if (bytesRead === 0) break;
      end += bytesRead;
    }
    return bytes.subarray(0, end);
  } finally {
    await file.close();
  }
}

/** Larger buffers are not kept: a 30-megapixel raw without compression. */
const keptBytesMax = 64 * 2 ** 20;

/**
 * Memory that files are read into, one after the other. Fresh memory costs more than reading from the system's cache does:
 * 48 MB took 65 ms into a new buffer and 15 ms into a used one.
 */
export class ReadBuffer {
  #bytes = new Uint8Array(0);

  /** Room for `size` bytes; what was taken before is overwritten. */
  take(size: number): Uint8Array {
    if (size > keptBytesMax) return new Uint8Array(size);
    if (this.#bytes.length < size) this.#bytes = new Uint8Array(size);
    return this.#bytes.subarray(0, size);
  }
}
