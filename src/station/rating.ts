import { open } from 'node:fs/promises';
import type { MetadataReader } from '../metadata/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';

/**
 * Where cameras put XMP: in the first part of a JPEG (Exif 2.32 and ISO 16684-3 put their segments in front of the picture)
 * and among the first directories of a raw. Only a file that speaks of a rating there is worth the reader's time.
 */
const headBytes = 256 * 1024;

/**
 * The `xmp:Rating` that came with a frame, of its sidecar before that inside its file; null where there is none, or where it
 * says "unrated". A file that cannot be read has none.
 */
export async function ratingOf(
  row: Pick<FrameRow, 'files'>,
  shown: FileRow,
  pathOf: (file: FileRow) => string,
  reader: Pick<MetadataReader, 'readRating'>,
): Promise<number | null> {
  try {
    const sidecar = row.files.find(({ name, path }) => path !== null && /\.xmp$/i.test(name));
    const path = pathOf(sidecar ?? shown);
    if (sidecar === undefined && !(await speaksOfRating(path))) return null;
    const rating = await reader.readRating(path);
    return rating === 0 ? null : rating;
  } catch {
    return null;
  }
}

async function speaksOfRating(path: string): Promise<boolean> {
  const file = await open(path, 'r');
  try {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(headBytes), 0, headBytes, 0);
    return buffer.subarray(0, bytesRead).includes('xmp:Rating');
  } finally {
    await file.close();
  }
}
