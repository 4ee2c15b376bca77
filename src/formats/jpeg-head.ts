import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import {
  exifSignature,
  frameHeaderBytes,
  type JpegFrame,
  marker,
  parseFrame,
  standsAlone,
  startsFrame,
} from './jpeg-markers.ts';

/** Segments before the frame header of a preview; cameras write up to a dozen. */
const segmentsMax = 64;

/** What stands before the first scan of a JPEG that lies inside another file. */
export interface JpegHead {
  /** `pending` while its bytes are not at hand, `none` where the bytes there are no JPEG. */
  readonly frame: JpegFrame | 'pending' | 'none';
  /** The TIFF structure of the Exif segment, if one came before the frame header. */
  readonly exif: ByteRange | null;
}

/** The frame header of the JPEG at `range`. */
export function frameInside(reader: BoundedReader, range: ByteRange): JpegHead['frame'] {
  return headInside(reader, range).frame;
}

/** Frame header and Exif of the JPEG at `range`, as far as they are at hand. */
export function headInside(reader: BoundedReader, range: ByteRange): JpegHead {
  const end = range.offset + range.length;
  const start = peekWithin(reader, range.offset, 2, end);
  if (typeof start === 'string') return { frame: start, exif: null };
  if (start.getUint16(0) !== 0xff00 + marker.SOI) return { frame: 'none', exif: null };
  let exif: ByteRange | null = null;
  let position = range.offset + 2;
  for (let segments = 0; segments < segmentsMax; segments++) {
    const head = peekWithin(reader, position, 4, end);
    if (typeof head === 'string') return { frame: head, exif };
    if (head.getUint8(0) !== 0xff) break;
    const code = head.getUint8(1);
    if (code === 0xff) position += 1;
    else if (standsAlone(code)) position += 2;
    else if (code === marker.SOS || code === marker.EOI || head.getUint16(2) < 2) break;
    else if (startsFrame(code)) return { frame: frameAt(reader, position, code, end), exif };
    else {
      if (code === marker.APP1) exif ??= exifAt(reader, position, head.getUint16(2), end);
      position += 2 + head.getUint16(2);
    }
  }
  return { frame: 'none', exif };
}

function frameAt(reader: BoundedReader, position: number, code: number, end: number): JpegHead['frame'] {
  const body = peekWithin(reader, position + 2, frameHeaderBytes, end);
  return typeof body === 'string'
    ? body
    : parseFrame(code, new Uint8Array(body.buffer, body.byteOffset, body.byteLength));
}

/** What follows the signature of an APP1 segment with Exif; null where the segment holds something else. */
function exifAt(reader: BoundedReader, position: number, length: number, end: number): ByteRange | null {
  const skipped = 2 + exifSignature.length;
  const body = length > skipped ? peekWithin(reader, position + 4, exifSignature.length, end) : 'none';
  if (typeof body === 'string') return null;
  const isSigned = exifSignature.every((byte, i) => body.getUint8(i) === byte);
  return isSigned ? { offset: position + 2 + skipped, length: length - skipped } : null;
}

function peekWithin(
  reader: BoundedReader,
  offset: number,
  length: number,
  end: number,
): DataView | 'pending' | 'none' {
  if (offset + length > end) return 'none';
  const bytes = reader.peek(offset, length);
  return bytes === null ? 'pending' : new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
