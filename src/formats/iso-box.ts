import type { BoundedReader } from './bounded-reader.ts';

/** One box of the ISO base media file format. ISO/IEC 14496-12 section 4.2. */
export interface IsoBox {
  /** Four characters. */
  readonly type: string;
  /** The extended type of a `uuid` box, 32 hexadecimal digits; else null. */
  readonly uuid: string | null;
  /** Where its content begins, behind the header, from the start of the file. */
  readonly bodyOffset: number;
  /** First byte behind it. */
  readonly end: number;
}

/** Size and type. */
const headBytes = 8;

/** `largesize`, which follows where the size says 1. */
const largeSizeBytes = 8;
const uuidBytes = 16;

/** The boxes of one file. Counts them over the whole inspection, so that no nesting multiplies the work. */
export class IsoBoxes {
  readonly reader: BoundedReader;
  #seen = 0;

  constructor(reader: BoundedReader) {
    this.reader = reader;
  }

  /** The boxes side by side in a file, as far as their headers are at hand. Each must lie in the file whole. */
  ofFile(): IsoBox[] {
    const boxes: IsoBox[] = [];
    const { source } = this.reader;
    for (let position = 0; ; ) {
      // Behind the last box there may be another one, but nothing says so.
      if (position >= source.sizeBytes) this.reader.peek(position, headBytes);
      const box = position < source.sizeBytes ? this.#parse(position) : null;
      if (box === null) return boxes;
      boxes.push(box);
      this.reader.expectEnd(box.end);
      position = box.end;
    }
  }

  /** The boxes side by side from `offset` up to `end`, within another box. */
  within(offset: number, end: number): IsoBox[] {
    const boxes: IsoBox[] = [];
    for (let position = offset; position + headBytes <= end; ) {
      const box = this.#parse(position);
      if (box === null) break;
      if (box.end > end) {
        this.reader.doubt('box-bad-size', position);
        break;
      }
      boxes.push(box);
      position = box.end;
    }
    return boxes;
  }

  /** The boxes directly in `box`, whose content is nothing but boxes; none where there is no `box`. */
  in(box: IsoBox | undefined): IsoBox[] {
    return box === undefined ? [] : this.within(box.bodyOffset, box.end);
  }

  #parse(offset: number): IsoBox | null {
    if (this.#seen >= this.reader.limits.boxesMax) {
      this.reader.doubt('box-too-many', offset);
      return null;
    }
    this.#seen += 1;
    const head = this.reader.take(offset, headBytes);
    if (head === null) return null;
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    const type = textOf(head.subarray(4));
    const size = view.getUint32(0);
    const large = size === 1 ? this.#largeSize(offset + headBytes) : null;
    if (size === 1 && large === null) return null;
    const uuidOffset = offset + headBytes + (large === null ? 0 : largeSizeBytes);
    const uuid = type === 'uuid' ? this.#uuid(uuidOffset) : null;
    if (type === 'uuid' && uuid === null) return null;
    const bodyOffset = uuidOffset + (uuid === null ? 0 : uuidBytes);
    const end = offset + (large ?? size);
    return this.#isPlace(offset, size, bodyOffset, end) ? { type, uuid, bodyOffset, end } : null;
  }

  #largeSize(offset: number): number | null {
    const bytes = this.reader.take(offset, largeSizeBytes);
    if (bytes === null) return null;
    return Number(new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getBigUint64(0));
  }

  #uuid(offset: number): string | null {
    const bytes = this.reader.take(offset, uuidBytes);
    return bytes === null ? null : Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  }

  /** A size of 0 means "to the end of the file" (section 4.2): where that is, nobody says. */
  #isPlace(offset: number, size: number, bodyOffset: number, end: number): boolean {
    if (size === 0) this.reader.doubt('box-open-ended', offset);
    else if (end < bodyOffset) this.reader.doubt('box-bad-size', offset);
    else if (end > Number.MAX_SAFE_INTEGER) this.reader.doubt('claim-past-format', offset);
    else return true;
    return false;
  }
}

function textOf(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes);
}
