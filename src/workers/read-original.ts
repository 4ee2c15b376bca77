import { open } from 'node:fs/promises';
import type { SetsideError } from '../base/index.ts';

/**
 * All bytes of a file, if there are no more than `bytesMax`; the size is asked before anything is allocated.
 * Errors: what `tooLarge` makes for more, the system's own (`ENOENT` …) otherwise.
 */
export async function readOriginal(
  path: string,
  bytesMax: number,
  tooLarge: () => SetsideError,
): Promise<Uint8Array> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    if (size > bytesMax) throw tooLarge();
    return await file.readFile();
  } finally {
    await file.close();
  }
}
