/** What was opened, to be closed in the opposite order. */
export class Closers {
  readonly #closers: (() => Promise<void> | void)[] = [];
  readonly #failed: (thrown: unknown) => void;

  /** `failed` hears of a close that did not succeed; the others are closed all the same. */
  constructor(failed: (thrown: unknown) => void) {
    this.#failed = failed;
  }

  add(close: () => Promise<void> | void): void {
    this.#closers.push(close);
  }

  /** May be called twice; each part is closed once. */
  async closeAll(): Promise<void> {
    for (let close = this.#closers.pop(); close !== undefined; close = this.#closers.pop()) {
      try {
        await close();
      } catch (thrown) {
        this.#failed(thrown);
      }
    }
  }
}
