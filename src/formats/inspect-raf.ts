import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import type { Inspection } from './inspection.ts';
import { headInside } from './jpeg-head.ts';
import { exifOf } from './jpeg-parts.ts';
import { jpegPreviewAt } from './jpeg-preview.ts';
import { noTags, type PictureTags } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import { parseRafHeader, type RafHeader, rafHeaderBytes, rafLongHeaderBytes } from './raf-header.ts';
import { rafSizeOf } from './raf-records.ts';
import { structureInspection } from './structure-inspection.ts';

/** Inspects a RAF file: a fixed header that points to a JPEG with Exif and to the sensor values. */
export function inspectRaf(reader: BoundedReader): Inspection {
  const header = headerOf(reader);
  const picture = header === null ? null : pictureIn(reader, header.jpeg);
  return structureInspection(reader, {
    kind: 'raf',
    previews: picture?.previews ?? [],
    tags: picture?.tags ?? noTags,
    size: header === null ? null : rafSizeOf(reader, header.records),
    provable: header !== null && header.sensor.length > 0,
  });
}

/** Everything that the header points to is claimed from the file. */
function headerOf(reader: BoundedReader): RafHeader | null {
  const short = reader.take(0, rafHeaderBytes);
  if (short === null) return null;
  const { jpeg } = parseRafHeader(short);
  const bytes = jpeg.offset < rafLongHeaderBytes ? short : reader.take(0, rafLongHeaderBytes);
  if (bytes === null) return null;
  const header = parseRafHeader(bytes);
  for (const { offset, length } of [header.jpeg, header.records, header.sensor]) {
    if (length > 0) reader.expectEnd(offset + length);
  }
  if (header.hasMore) reader.doubt('pieces-unclear', 0);
  return header;
}

/** The JPEG with what its Exif says and holds. */
function pictureIn(
  reader: BoundedReader,
  range: ByteRange,
): { readonly tags: PictureTags; readonly previews: readonly Preview[] } {
  if (range.length === 0) return { tags: noTags, previews: [] };
  const exif = exifOf(reader, headInside(reader, range).exif);
  const tags = exif?.tags ?? noTags;
  const picture = jpegPreviewAt(reader, range, null, tags.colorSpace === 1 ? 'srgb' : null);
  return { tags, previews: [...(exif?.previews ?? []), ...(picture === null ? [] : [picture])] };
}
