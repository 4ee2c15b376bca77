import type { Mark } from '../../facts/index.ts';

/** A mark of one's own comes back as an event within this time, ms; on a weak line too. */
const comesBackMs = 3_000;

interface Own {
  /** What the page showed as the mark was sent. */
  readonly shown: Mark;
  readonly mark: Mark;
  readonly atMs: number;
}

/**
 * Which mark a person has seen on a frame. The page learns of its own marks by events, like everybody's: who presses a
 * second key before that has seen the first mark all the same, and must not be told that somebody else made it.
 */
export class OwnMarks {
  readonly #now: () => number;
  readonly #own = new Map<string, Own>();
  readonly #underWay = new Map<string, Promise<void>>();

  constructor(now: () => number) {
    this.#now = now;
  }

  /**
   * Sends a mark, behind the one before it of the same frame; one that is refused was none. `shown`: what the page shows of
   * the frame now.
   */
  send(frame: string, shown: Mark, mark: Mark, call: (seen: Mark) => Promise<unknown>): Promise<void> {
    const before = this.#underWay.get(frame) ?? Promise.resolve();
    const done = before.catch(() => {}).then(() => this.#send(frame, shown, mark, call));
    this.#underWay.set(frame, done);
    const forget = (): void => {
      if (this.#underWay.get(frame) === done) this.#underWay.delete(frame);
    };
    done.then(forget, forget);
    return done;
  }

  async #send(frame: string, shown: Mark, mark: Mark, call: (seen: Mark) => Promise<unknown>): Promise<void> {
    await call(this.#seen(frame, shown));
    this.#own.set(frame, { shown, mark, atMs: this.#now() });
  }

  #seen(frame: string, shown: Mark): Mark {
    const own = this.#own.get(frame);
    if (own === undefined || own.shown !== shown || this.#now() - own.atMs > comesBackMs) return shown;
    return own.mark;
  }
}
