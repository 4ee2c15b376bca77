/** Numbers that look random and come again with the same seed: mulberry32 (Tommy Ettinger, public domain). */
export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** A whole number from 0 up to but not including `end`. */
  below(end: number): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * end);
  }

  oneOf<Item>(items: readonly Item[]): Item {
    return items[this.below(items.length)];
  }
}
