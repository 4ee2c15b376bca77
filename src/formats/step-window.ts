import type { BoundedReader } from './bounded-reader.ts';
import { jpegStepBytes } from './limits.ts';

/** The bytes at hand around one position, loaded in steps so that a long scan costs little memory. */
export class StepWindow {
  readonly #reader: BoundedReader;
  #start = 0;
  #bytes: Uint8Array = new Uint8Array(0);

  constructor(reader: BoundedReader) {
    this.#reader = reader;
  }

  /** Exactly `length` bytes, or null. */
  at(offset: number, length: number): Uint8Array | null {
    if (!this.#holds(offset, length) && !this.#load(offset, length)) return null;
    const from = offset - this.#start;
    return this.#bytes.subarray(from, from + length);
  }

  /** At least one byte from `offset` on, or null. */
  from(offset: number): Uint8Array | null {
    // Two bytes, so that a marker split over two steps is seen whole; one where no more have arrived.
    const least = Math.min(2, Math.max(1, this.#reader.source.sizeBytes - offset));
    if (!this.#holds(offset, least) && !this.#load(offset, least)) return null;
    return this.#bytes.subarray(offset - this.#start);
  }

  #holds(offset: number, length: number): boolean {
    return offset >= this.#start && offset + length <= this.#start + this.#bytes.length;
  }

  #load(offset: number, least: number): boolean {
    const { source } = this.#reader;
    const there = Math.min(jpegStepBytes, source.sizeBytes - offset);
    if (there < least) return false;
    const bytes = source.read(offset, there);
    if (bytes === null) {
      this.#reader.want({ offset, length: Math.min(4 * jpegStepBytes, source.sizeBytes - offset) });
      return false;
    }
    this.#start = offset;
    this.#bytes = bytes;
    return true;
  }
}
