import { open } from 'node:fs/promises';

/**
 * Where cameras put XMP: in the first part of a JPEG (Exif 2.32 and ISO 16684-3 put their segments in front of the picture)
 * and among the first directories of a raw. Only a file that speaks of a thing there is worth the reader's time.
 */
const headBytes = 256 * 1024;

/** Whether the words stand in the first part of a file. Rejects where it cannot be read. */
export async function speaksOf(path: string, words: string): Promise<boolean> {
  const file = await open(path, 'r');
  try {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(headBytes), 0, headBytes, 0);
    return buffer.subarray(0, bytesRead).includes(words);
  } finally {
    await file.close();
  }
}
