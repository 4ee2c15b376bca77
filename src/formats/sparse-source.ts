import { KiB, MiB } from '../base/index.ts';
import type { ByteRange, ByteSource } from './byte-source.ts';

/**
 * Loads are rounded out to this: directories, values and preview heads lie close together, so one read of a disk page
 * or four usually brings the next three wishes too.
 */
export const blockBytes: number = 16 * KiB;

/** Room for every directory of a raw file and some steps of a JPEG walk; nothing a stranger sends raises it. */
export const sparseBytesMax: number = 8 * MiB;

/** `range` rounded out to whole blocks, ending at the last byte there is. */
export function wholeBlocks(range: ByteRange, sizeBytes: number): ByteRange {
  const offset = Math.floor(range.offset / blockBytes) * blockBytes;
  const end = Math.min(Math.ceil((range.offset + range.length) / blockBytes) * blockBytes, sizeBytes);
  return { offset, length: Math.max(0, end - offset) };
}

/** One block and the part of it that is filled, `from` up to but not including `to`. */
interface Block {
  readonly bytes: Uint8Array;
  readonly from: number;
  readonly to: number;
}

/**
 * A source that holds only the ranges put into it, within a fixed amount of memory; the least recently read block goes
 * first. The owner of the file tells it how far the file has come with {@link grow} and {@link end}.
 */
export class SparseSource implements ByteSource {
  readonly #blocks = new Map<number, Block>();
  readonly #blocksMax: number;
  #sizeBytes = 0;
  #ended = false;

  constructor(bytesMax: number = sparseBytesMax) {
    this.#blocksMax = Math.max(1, Math.floor(bytesMax / blockBytes));
  }

  get sizeBytes(): number {
    return this.#sizeBytes;
  }

  get ended(): boolean {
    return this.#ended;
  }

  /** Bytes of memory in use; at most what the constructor was given (at least one block). */
  get heldBytes(): number {
    return this.#blocks.size * blockBytes;
  }

  /** The file is now at least this long; a smaller figure is ignored. */
  grow(sizeBytes: number): void {
    this.#sizeBytes = Math.max(this.#sizeBytes, sizeBytes);
  }

  /** No more will come. */
  end(): void {
    this.#ended = true;
  }

  /** Copies `bytes`, found at `offset`, in. A file put further than it was long is that much longer. */
  put(offset: number, bytes: Uint8Array): void {
    this.grow(offset + bytes.length);
    let done = 0;
    while (done < bytes.length) {
      const at = offset + done;
      const index = Math.floor(at / blockBytes);
      const from = at - index * blockBytes;
      const length = Math.min(blockBytes - from, bytes.length - done);
      this.#fill(index, from, bytes.subarray(done, done + length));
      done += length;
    }
  }

  read(offset: number, length: number): Uint8Array | null {
    if (offset < 0 || length < 0 || offset + length > this.#sizeBytes) return null;
    // No bytes are always at hand, also before the first block is.
    if (length === 0) return new Uint8Array(0);
    const index = Math.floor(offset / blockBytes);
    const from = offset - index * blockBytes;
    if (from + length <= blockBytes) return this.#part(index, from, length);
    if (length > this.#blocksMax * blockBytes) return null;
    return this.#joined(offset, length);
  }

  #joined(offset: number, length: number): Uint8Array | null {
    const joined = new Uint8Array(length);
    let done = 0;
    while (done < length) {
      const at = offset + done;
      const index = Math.floor(at / blockBytes);
      const from = at - index * blockBytes;
      const part = this.#part(index, from, Math.min(blockBytes - from, length - done));
      if (part === null) return null;
      joined.set(part, done);
      done += part.length;
    }
    return joined;
  }

  #part(index: number, from: number, length: number): Uint8Array | null {
    const block = this.#blocks.get(index);
    if (block === undefined || from < block.from || from + length > block.to) return null;
    this.#touch(index, block);
    return block.bytes.subarray(from, from + length);
  }

  /** A part that neither touches nor overlaps what the block holds takes its place: one filled run per block. */
  #fill(index: number, from: number, bytes: Uint8Array): void {
    const held = this.#blocks.get(index);
    const to = from + bytes.length;
    const joins = held !== undefined && from <= held.to && to >= held.from;
    const block: Block = {
      bytes: held?.bytes ?? new Uint8Array(blockBytes),
      from: joins ? Math.min(from, held.from) : from,
      to: joins ? Math.max(to, held.to) : to,
    };
    block.bytes.set(bytes, from);
    this.#touch(index, block);
    while (this.#blocks.size > this.#blocksMax) {
      const oldest = this.#blocks.keys().next();
      if (oldest.done === true) return;
      this.#blocks.delete(oldest.value);
    }
  }

  #touch(index: number, block: Block): void {
    this.#blocks.delete(index);
    this.#blocks.set(index, block);
  }
}
