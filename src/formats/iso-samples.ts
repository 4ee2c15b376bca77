import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import type { IsoBox } from './iso-box.ts';

/** Version and flags, then a count. */
const tableHeadBytes = 8;

/**
 * Where the samples of a track lie, by its sample table; each is claimed from the file. Empty while a table is not at
 * hand, or where they contradict each other. ISO/IEC 14496-12 sections 8.7.3 (`stsz`), 8.7.4 (`stsc`) and
 * 8.7.5 (`stco`, `co64`); compact sizes (`stz2`) are not read.
 */
export function sampleRanges(reader: BoundedReader, table: readonly IsoBox[]): readonly ByteRange[] {
  const box = (...types: readonly string[]): IsoBox | undefined =>
    table.find(({ type }) => types.includes(type));
  const [sizeBox, runBox, chunkBox] = [box('stsz'), box('stsc'), box('stco', 'co64')];
  if (sizeBox === undefined || runBox === undefined || chunkBox === undefined) return [];
  const sizes = sampleSizes(reader, sizeBox);
  const runs = entriesOf(reader, runBox, 12);
  const chunks = entriesOf(reader, chunkBox, chunkBox.type === 'co64' ? 8 : 4);
  if (sizes === null || runs === null || chunks === null) return [];
  return place(reader, sizeBox, sizes, perChunk(runs), chunkOffsets(chunks, chunkBox.type === 'co64'));
}

/** Lays the samples one behind the other into their chunks. */
function place(
  reader: BoundedReader,
  { bodyOffset }: IsoBox,
  sizes: readonly number[],
  samplesIn: (chunk: number) => number,
  chunks: readonly number[],
): readonly ByteRange[] {
  const samples: ByteRange[] = [];
  for (const [chunk, chunkOffset] of chunks.entries()) {
    let offset = chunkOffset;
    for (let left = samplesIn(chunk); left > 0 && samples.length < sizes.length; left--) {
      const length = sizes[samples.length] ?? 0;
      if (offset + length > Number.MAX_SAFE_INTEGER) {
        reader.doubt('claim-past-format', bodyOffset);
        return [];
      }
      reader.expectEnd(offset + length);
      samples.push({ offset, length });
      offset += length;
    }
  }
  if (samples.length < sizes.length) reader.doubt('pieces-unclear', bodyOffset);
  return samples;
}

/** One size for all, or one each. */
function sampleSizes(reader: BoundedReader, box: IsoBox): readonly number[] | null {
  const head = takeWithin(reader, box, 0, 12);
  if (head === null) return null;
  const common = head.getUint32(4);
  const count = head.getUint32(8);
  if (count > reader.limits.piecesMax) {
    reader.doubt('pieces-too-many', box.bodyOffset);
    return null;
  }
  if (common !== 0) return Array.from({ length: count }, () => common);
  const view = takeWithin(reader, box, 12, count * 4);
  return view === null ? null : Array.from({ length: count }, (_, i) => view.getUint32(i * 4));
}

/** The entries of a table that begins with their count. */
function entriesOf(reader: BoundedReader, box: IsoBox, entryBytes: number): DataView | null {
  const head = takeWithin(reader, box, 0, tableHeadBytes);
  if (head === null) return null;
  const count = head.getUint32(4);
  if (count > reader.limits.piecesMax) {
    reader.doubt('pieces-too-many', box.bodyOffset);
    return null;
  }
  return takeWithin(reader, box, tableHeadBytes, count * entryBytes);
}

/** Each entry holds from its first chunk, counted from 1, until the next entry's. */
function perChunk(runs: DataView): (chunk: number) => number {
  let run = 0;
  return (chunk) => {
    while ((run + 1) * 12 < runs.byteLength && runs.getUint32((run + 1) * 12) <= chunk + 1) run += 1;
    return runs.byteLength === 0 ? 0 : runs.getUint32(run * 12 + 4);
  };
}

function chunkOffsets(chunks: DataView, large: boolean): readonly number[] {
  return large
    ? Array.from({ length: chunks.byteLength / 8 }, (_, i) => Number(chunks.getBigUint64(i * 8)))
    : Array.from({ length: chunks.byteLength / 4 }, (_, i) => chunks.getUint32(i * 4));
}

function takeWithin(reader: BoundedReader, box: IsoBox, at: number, length: number): DataView | null {
  if (box.bodyOffset + at + length > box.end) {
    reader.doubt('pieces-unclear', box.bodyOffset);
    return null;
  }
  const bytes = reader.take(box.bodyOffset + at, length);
  return bytes === null ? null : new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
