/** Work that waits for its turn, newest first, so that after a drop of the line the frame just taken is seen first. */
export class NewestFirst<Item> {
  readonly #waiting: { readonly key: string; readonly atMs: number; readonly item: Item }[] = [];

  get length(): number {
    return this.#waiting.length;
  }

  /** Adds an item; one of the same key that still waits is replaced. */
  add(key: string, atMs: number, item: Item): void {
    const same = this.#waiting.findIndex((entry) => entry.key === key);
    if (same >= 0) this.#waiting.splice(same, 1);
    const place = this.#waiting.findIndex((entry) => entry.atMs > atMs);
    this.#waiting.splice(place < 0 ? this.#waiting.length : place, 0, { key, atMs, item });
  }

  /** Takes the newest, or undefined where nothing waits. */
  take(): Item | undefined {
    return this.#waiting.pop()?.item;
  }
}
