import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import {
  frameHeaderBytes,
  type JpegFrame,
  marker,
  parseFrame,
  standsAlone,
  startsFrame,
} from './jpeg-markers.ts';

/** Segments before the frame header of a preview; cameras write up to a dozen. */
const segmentsMax = 64;

/**
 * The frame header of a JPEG that lies inside another file; `pending` while its bytes are not at hand, `none` where
 * the bytes there are no JPEG.
 */
export function frameInside(reader: BoundedReader, range: ByteRange): JpegFrame | 'pending' | 'none' {
  const end = range.offset + range.length;
  const start = peekWithin(reader, range.offset, 2, end);
  if (typeof start === 'string') return start;
  if (start.getUint16(0) !== 0xff00 + marker.SOI) return 'none';
  let position = range.offset + 2;
  for (let segments = 0; segments < segmentsMax; segments++) {
    const head = peekWithin(reader, position, 4, end);
    if (typeof head === 'string') return head;
    if (head.getUint8(0) !== 0xff) return 'none';
    const code = head.getUint8(1);
    if (code === 0xff) position += 1;
    else if (standsAlone(code)) position += 2;
    else if (code === marker.SOS || code === marker.EOI || head.getUint16(2) < 2) return 'none';
    else if (startsFrame(code)) {
      const body = peekWithin(reader, position + 2, frameHeaderBytes, end);
      return typeof body === 'string'
        ? body
        : parseFrame(code, new Uint8Array(body.buffer, body.byteOffset, body.byteLength));
    } else position += 2 + head.getUint16(2);
  }
  return 'none';
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
