import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import { jpegPreviewAt } from './jpeg-preview.ts';
import type { Preview } from './preview.ts';
import { parseTiffHeader, tiffHeaderBytesMax } from './tiff-header.ts';
import { parseIfd } from './tiff-ifd.ts';
import { TiffStructure } from './tiff-structure.ts';

/**
 * Multi-Picture Format, CIPA DC-007-2009: further JPEGs behind the EOI of the first, listed in an APP2 segment. Cameras
 * put a screen-size preview there; a file that was cut behind its first EOI is cut all the same.
 */

/** MP Entry, the list of pictures: section 5.2.3.3. */
const mpEntryTag = 0xb002;

/** Attribute, size, offset, two dependents: section 5.2.3.3, table 4. */
const entryBytes = 16;

/** Pictures that are followed; a panorama has some dozens, cameras write one to three. */
const picturesMax = 64;

/**
 * The pictures an MP index lists, the first one included, from the start of the file. Offsets count from the index's
 * own TIFF header, except that the first picture is the file's (section 5.2.3.3.3).
 */
export function mpPicturesOf(reader: BoundedReader, index: ByteRange): readonly ByteRange[] {
  const head = reader.peek(index.offset, Math.min(tiffHeaderBytesMax, index.length));
  const header = head === null ? null : parseTiffHeader(head);
  if (header === null || header.big) return [];
  const tiff = new TiffStructure(header, reader, index.offset, index.offset + index.length);
  const field = parseIfd(tiff, header.firstIfdOffset, 'main')?.fields.get(mpEntryTag);
  if (field === undefined) return [];
  const count = Math.min(Math.floor(field.count / entryBytes), picturesMax);
  const bytes = tiff.take(field.valueOffset, count * entryBytes);
  if (bytes === null) return [];
  const view = tiff.view(bytes);
  return Array.from({ length: count }, (_, i) => {
    const offset = view.getUint32(i * entryBytes + 8, header.littleEndian);
    return {
      offset: i === 0 ? 0 : index.offset + offset,
      length: view.getUint32(i * entryBytes + 4, header.littleEndian),
    };
  }).filter(({ length }) => length > 0);
}

/** The pictures behind the first as previews; one that has not begun to arrive is of unknown size. */
export function mpPreviews(reader: BoundedReader, pictures: readonly ByteRange[]): Preview[] {
  return pictures
    .filter(({ offset }) => offset > 0)
    .slice(0, reader.limits.previewsMax)
    .map((picture) => jpegPreviewAt(reader, picture, null, null))
    .filter((preview) => preview !== null);
}
