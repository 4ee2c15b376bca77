/**
 * What all inputs so far have reached: blocks, and for each how often one input alone ran it, to a power of two. A loop
 * that runs far more often than ever is as new as a block that never ran.
 */
export class Reached {
  readonly #blocks = new Set<string>();
  readonly #counts = new Set<string>();

  get blocks(): number {
    return this.#blocks.size;
  }

  /** Whether several inputs together ran a block that none has run before. */
  hasNewBlock(ran: ReadonlyMap<string, number>): boolean {
    return [...ran.keys()].some((block) => !this.#blocks.has(block));
  }

  /** Notes what one input ran; true where something of it was new. */
  note(ran: ReadonlyMap<string, number>): boolean {
    const before = this.#counts.size;
    for (const [block, count] of ran) {
      this.#blocks.add(block);
      this.#counts.add(`${block}*${Math.floor(Math.log2(count))}`);
    }
    return this.#counts.size > before;
  }
}
