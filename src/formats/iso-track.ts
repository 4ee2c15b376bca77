import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import type { IsoBox, IsoBoxes } from './iso-box.ts';
import { sampleRanges } from './iso-samples.ts';
import type { PixelSize } from './structure-inspection.ts';

/** What a track of the movie box points to. */
export interface IsoTrack {
  /** Its samples in order; empty while the tables are not at hand, or where they are unclear. */
  readonly samples: readonly ByteRange[];
  /** The size in the sample entry of a picture track; null where that is not at hand. */
  readonly size: PixelSize | null;
  /** Whether its samples are plain JPEGs. */
  readonly isJpeg: boolean;
}

/** Version, flags and entry count before the entries of a sample description: ISO/IEC 14496-12 section 8.5.2. */
const descriptionHeadBytes = 8;

/** Where width and height stand in a visual sample entry, behind its box header: section 12.1.3. */
const entrySizeOffset = 24;

/** Where the boxes of a raw file's sample entry begin, behind its box header: as in the sample head. */
const entryBoxesOffset = 82;

/** Reads a `trak` box; each sample is claimed from the file. */
export function trackOf(boxes: IsoBoxes, track: IsoBox): IsoTrack {
  const table = boxes.in(descend(boxes, track, ['mdia', 'minf', 'stbl']));
  const samples = sampleRanges(boxes.reader, table);
  const description = table.find(({ type }) => type === 'stsd');
  const entry =
    description === undefined
      ? undefined
      : boxes.within(description.bodyOffset + descriptionHeadBytes, description.end)[0];
  return { samples, ...pictureEntry(boxes, entry) };
}

function pictureEntry(boxes: IsoBoxes, entry: IsoBox | undefined): Pick<IsoTrack, 'size' | 'isJpeg'> {
  // Another four-character code stands for data beside the pictures, with an entry of another form.
  if (entry?.type !== 'CRAW') return { size: null, isJpeg: false };
  const inside = boxes.within(entry.bodyOffset + entryBoxesOffset, entry.end);
  return { size: entrySize(boxes.reader, entry), isJpeg: inside.some(({ type }) => type === 'JPEG') };
}

function entrySize(reader: BoundedReader, entry: IsoBox): PixelSize | null {
  const offset = entry.bodyOffset + entrySizeOffset;
  const bytes = offset + 4 <= entry.end ? reader.take(offset, 4) : null;
  if (bytes === null) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return { widthPx: view.getUint16(0), heightPx: view.getUint16(2) };
}

function descend(boxes: IsoBoxes, box: IsoBox, path: readonly string[]): IsoBox | undefined {
  let at: IsoBox | undefined = box;
  for (const step of path) at = boxes.in(at).find(({ type }) => type === step);
  return at;
}
