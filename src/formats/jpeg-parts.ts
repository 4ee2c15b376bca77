import { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import { readTiff } from './inspect-tiff.ts';
import type { ExifPart } from './inspection.ts';
import { mpPicturesOf, mpPreviews } from './jpeg-mp.ts';
import type { JpegWalk } from './jpeg-walk.ts';
import { readPart } from './part-reader.ts';
import { noTags } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import { parseTiffHeader, tiffHeaderBytesMax } from './tiff-header.ts';
import { TiffStructure } from './tiff-structure.ts';

/** The tags and thumbnails of the Exif segment whose TIFF structure is at `exif`; null while it is not there whole and loaded. */
export function exifOf(reader: BoundedReader, exif: ByteRange | null): ExifPart | null {
  return readPart(reader, exif, (inner, { offset, length }) => {
    const head = inner.peek(offset, Math.min(tiffHeaderBytesMax, length));
    const header = head === null ? null : parseTiffHeader(head);
    if (header === null) return { tags: noTags, previews: [] };
    const { tags, previews } = readTiff(new TiffStructure(header, inner, offset, offset + length));
    return { tags, previews };
  });
}

/** The pictures that the Multi-Picture index lists; null while it is not there whole and loaded. */
export function picturesOf(reader: BoundedReader, walk: JpegWalk): readonly ByteRange[] | null {
  return readPart(reader, walk.mpIndex, mpPicturesOf);
}

/** The pictures behind the first as previews, as far as they have come. */
export function furtherPreviews(reader: BoundedReader, pictures: readonly ByteRange[]): Preview[] {
  const inner = new BoundedReader(reader.source, reader.limits);
  const previews = mpPreviews(inner, pictures);
  for (const range of inner.wanted) reader.want(range);
  return previews;
}
