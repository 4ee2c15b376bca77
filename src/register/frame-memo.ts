import type { FrameRow } from './rows.ts';

/** Most frames remembered: those that arrive and are developed at the same time, and then some. */
export const framesRememberedMax = 64;

/**
 * Frames as they were read since the last write. While a file arrives its frame is asked for with each word of progress,
 * eight times and more, and changes three times.
 */
export class FrameMemo {
  readonly #read: (id: string) => Promise<FrameRow | null>;
  readonly #rows = new Map<string, FrameRow | null>();
  #writes = 0;

  constructor(read: (id: string) => Promise<FrameRow | null>) {
    this.#read = read;
  }

  async get(id: string): Promise<FrameRow | null> {
    const remembered = this.#rows.get(id);
    if (remembered !== undefined) return remembered;
    const writes = this.#writes;
    const row = await this.#read(id);
    // What was read beside a write may be older than it.
    if (writes === this.#writes && this.#rows.size < framesRememberedMax) this.#rows.set(id, row);
    return row;
  }

  /** Does a write; what was read before and beside it is forgotten, also where it fails. */
  async write(work: () => Promise<void>): Promise<void> {
    this.#forget();
    try {
      await work();
    } finally {
      this.#forget();
    }
  }

  #forget(): void {
    this.#writes += 1;
    this.#rows.clear();
  }
}
