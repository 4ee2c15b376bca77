/** Lets one at a time through, in the order of asking. A failure is its own: the next one goes on. */
export class Turnstile {
  #last: Promise<unknown> = Promise.resolve();

  pass<Result>(work: () => Promise<Result>): Promise<Result> {
    const done = this.#last.then(work);
    this.#last = done.catch(() => {});
    return done;
  }
}
