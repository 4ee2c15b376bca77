import type { KeptFile } from '../core/arrival-records.ts';

/** Copies looked for in one call; a file that is kept meanwhile waits no longer than that takes. */
const copiesAtOnce = 200;
/** Between two looks lies at least so many times what the last one took: a slow or distant disk is not kept busy. */
const restFactor = 20;

/**
 * When a second place is looked through, and for which copies: everything the journal says is there, a part at a time,
 * when the place comes back and then again and again. Only names and sizes are read, so that this costs next to nothing.
 */
export class CopyLook {
  readonly #everyMs: number;
  #left: KeptFile[] = [];
  #dueMs = 0;
  #tookMs = 0;

  /** `everyMs`: rest between two looks. */
  constructor(everyMs: number) {
    this.#everyMs = everyMs;
  }

  /** The place is there again: it is looked through anew. */
  startAgain(): void {
    this.#left = [];
    this.#dueMs = 0;
    this.#tookMs = 0;
  }

  /** The copies to look for now, or null where none is due. */
  next(copies: () => readonly KeptFile[]): readonly KeptFile[] | null {
    if (this.#left.length === 0) {
      if (this.dueInMs() > 0) return null;
      this.#left = [...copies()];
      this.#tookMs = 0;
    }
    if (this.#left.length > 0) return this.#left.splice(0, copiesAtOnce);
    this.#rest();
    return null;
  }

  /** What {@link next} gave was looked for, in so long. */
  done(tookMs: number): void {
    this.#tookMs += tookMs;
    if (this.#left.length === 0) this.#rest();
  }

  dueInMs(): number {
    return Math.max(0, this.#dueMs - performance.now());
  }

  #rest(): void {
    this.#dueMs = performance.now() + Math.max(this.#everyMs, restFactor * this.#tookMs);
  }
}
