/** One thing at a time, in the order in which it was asked for. */
export class Lane {
  #last: Promise<void> = Promise.resolve();
  #asked = 0;

  get isFree(): boolean {
    return this.#asked === 0;
  }

  /** `work` does not reject. `over` is called when it is through, and the lane is free where nothing else was asked for. */
  run(work: () => Promise<void>, over: () => void): void {
    this.#asked += 1;
    this.#last = this.#last.then(work).finally(() => {
      this.#asked -= 1;
      over();
    });
  }

  /** When all that was asked for until now is through. */
  through(): Promise<void> {
    return this.#last;
  }
}
