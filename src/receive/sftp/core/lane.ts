import type { Asking, Question } from './questions.ts';

/** Requests that run one after another, in the order they came. */
export class Lane {
  readonly #waiting: Asking<void>[] = [];
  #running: Asking<void> | null = null;
  #isAsking = false;
  #isClosed = false;

  /** Requests running and waiting. */
  get length(): number {
    return this.#waiting.length + (this.#running === null ? 0 : 1);
  }

  /** Whether the last request of this lane is in it already. */
  get isClosed(): boolean {
    return this.#isClosed;
  }

  close(): void {
    this.#isClosed = true;
  }

  add(asking: Asking<void>): void {
    this.#waiting.push(asking);
  }

  /** Forgets what has not begun. */
  drop(): void {
    this.#waiting.length = 0;
  }

  /** The question that was open is answered; {@link advance} takes the answer. */
  answered(): void {
    this.#isAsking = false;
  }

  /** Runs until something is asked, which is given back; null when all is done, or a question is open already. */
  advance(answer: unknown): Question | null {
    if (this.#isAsking) return null;
    let given = answer;
    for (;;) {
      this.#running ??= this.#waiting.shift() ?? null;
      if (this.#running === null) return null;
      const step = this.#running.next(given);
      given = undefined;
      if (step.done !== true) {
        this.#isAsking = true;
        return step.value;
      }
      this.#running = null;
    }
  }
}
