import type { MetadataReader } from '../metadata/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';
import { speaksOf } from './speaks-of.ts';

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
    if (sidecar === undefined && !(await speaksOf(path, 'xmp:Rating'))) return null;
    const rating = await reader.readRating(path);
    return rating === 0 ? null : rating;
  } catch {
    return null;
  }
}
