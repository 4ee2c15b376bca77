import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import type { PixelSize } from './structure-inspection.ts';

/** A record's number and length, 16 bits each; before the first one stands their count, 32 bits. */
const recordHeadBytes = 4;
const countBytes = 4;

/** Height, then width of the picture without the sensor's borders: ExifTool 12.57, `RawImageCroppedSize`. */
const croppedSizeRecord = 0x111;

/** The size of the picture that is developed, by the records at `range`; null while those are not at hand. */
export function rafSizeOf(reader: BoundedReader, range: ByteRange): PixelSize | null {
  const end = range.offset + range.length;
  const count = viewWithin(reader, range.offset, countBytes, end)?.getUint32(0) ?? 0;
  if (count > reader.limits.entriesMax) {
    reader.warn('ifd-too-many-entries', range.offset);
    return null;
  }
  let position = range.offset + countBytes;
  for (let record = 0; record < count; record++) {
    const head = viewWithin(reader, position, recordHeadBytes, end);
    if (head === null) return null;
    if (head.getUint16(0) === croppedSizeRecord && head.getUint16(2) === 4) {
      return sizeIn(viewWithin(reader, position + recordHeadBytes, 4, end));
    }
    position += recordHeadBytes + head.getUint16(2);
  }
  return null;
}

function sizeIn(value: DataView | null): PixelSize | null {
  if (value === null) return null;
  const size = { widthPx: value.getUint16(2), heightPx: value.getUint16(0) };
  return size.widthPx > 0 && size.heightPx > 0 ? size : null;
}

function viewWithin(reader: BoundedReader, offset: number, length: number, end: number): DataView | null {
  const bytes = offset + length <= end ? reader.peek(offset, length) : null;
  return bytes === null ? null : new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
