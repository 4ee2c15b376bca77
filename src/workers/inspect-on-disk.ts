import { open } from 'node:fs/promises';
import { type Inspection, inspectArrived, SparseSource } from '../formats/index.ts';

/**
 * What a whole file on disk is. Only its directories are read: a raw format built on TIFF is told from a TIFF picture by
 * them, wherever they lie. Rejects with the system's own errors.
 */
export async function inspectOnDisk(path: string): Promise<Inspection> {
  const file = await open(path, 'r');
  try {
    const source = new SparseSource();
    source.grow((await file.stat()).size);
    source.end();
    return await inspectArrived(source, async ({ offset, length }) => {
      const { bytesRead, buffer } = await file.read(new Uint8Array(length), 0, length, offset);
      return bytesRead === length ? buffer : null;
    });
  } finally {
    await file.close();
  }
}
