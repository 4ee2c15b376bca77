import { GiB } from '../base/index.ts';
import type { BoundedReader } from './bounded-reader.ts';
import type { TiffHeader } from './tiff-header.ts';

/** Classic TIFF points with 32 bits, so nothing it holds can end further out (TIFF 6.0 section 2). */
const classicEndMax: number = 4 * GiB;

/** One TIFF structure inside a file: the file itself, or the part of a JPEG segment that holds Exif. */
export class TiffStructure {
  readonly header: TiffHeader;
  readonly reader: BoundedReader;
  /** Where the structure's offsets count from, bytes from the start of the file. */
  readonly baseOffset: number;
  /** Where the segment that holds the structure ends; null where the structure is the file. */
  readonly segmentEnd: number | null;

  constructor(header: TiffHeader, reader: BoundedReader, baseOffset = 0, segmentEnd: number | null = null) {
    this.header = header;
    this.reader = reader;
    this.baseOffset = baseOffset;
    this.segmentEnd = segmentEnd;
  }

  /** Bytes at `offset` within the structure, which the structure needs; null where they are not at hand. */
  take(offset: number, length: number): Uint8Array | null {
    return this.claim(offset, length) ? this.reader.take(this.baseOffset + offset, length) : null;
  }

  /**
   * Notes that the structure points to these bytes. False where no file of this format could hold them: then the
   * pointer is broken rather than the transfer, and nothing is proved.
   */
  claim(offset: number, length: number): boolean {
    if (!isCount(offset) || !isCount(length)) {
      this.reader.doubt('claim-not-a-place', this.baseOffset);
      return false;
    }
    const start = this.baseOffset + offset;
    const end = start + length;
    if (this.segmentEnd !== null) {
      if (end <= this.segmentEnd) return true;
      this.reader.warn('claim-past-segment', start);
      return false;
    }
    if (end > (this.header.big ? Number.MAX_SAFE_INTEGER : classicEndMax)) {
      this.reader.doubt('claim-past-format', Math.min(start, Number.MAX_SAFE_INTEGER));
      return false;
    }
    this.reader.expectEnd(end);
    return true;
  }

  view(bytes: Uint8Array): DataView {
    return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }
}

/** 64-bit figures that no number here can hold are larger than any file: `claim` turns them away as past the format. */
function isCount(figure: number): boolean {
  return figure >= 0 && (Number.isInteger(figure) || figure > Number.MAX_SAFE_INTEGER);
}
