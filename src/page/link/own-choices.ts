/** A choice of one's own comes back as an event within this time, ms; on a weak line too. */
const comesBackMs = 3_000;

interface Own<Value> {
  /** What the page showed as the choice was sent. */
  readonly shown: Value;
  readonly chosen: Value;
  readonly atMs: number;
}

/** A frame, and what the page shows of it now. */
export interface ShownOf<Value> {
  readonly id: string;
  readonly shown: Value;
}

/**
 * Which mark (or shot) a person has seen on a frame. The page learns of its own choices by events, like everybody's: who presses
 * a second key before that has seen the first choice all the same, and must not be told that somebody else made it.
 */
export class OwnChoices<Value> {
  readonly #now: () => number;
  readonly #own = new Map<string, Own<Value>>();
  readonly #underWay = new Map<string, Promise<void>>();

  constructor(now: () => number) {
    this.#now = now;
  }

  /** Sends what was chosen of one frame, behind what was chosen of it before; a choice that is refused was none. */
  send(frame: ShownOf<Value>, chosen: Value, call: (seen: Value) => Promise<unknown>): Promise<void> {
    return this.sendMany([frame], chosen, async (seen) => {
      for (const value of seen.values()) await call(value);
      return new Set();
    });
  }

  /** The same of many frames in one call, which settles with the ids of those that were not taken. */
  sendMany(
    frames: readonly ShownOf<Value>[],
    chosen: Value,
    call: (seen: ReadonlyMap<string, Value>) => Promise<ReadonlySet<string>>,
  ): Promise<void> {
    const before = frames.flatMap(({ id }) => this.#underWay.get(id) ?? []);
    const done = Promise.allSettled(before).then(() => this.#send(frames, chosen, call));
    for (const { id } of frames) this.#underWay.set(id, done);
    const forget = (): void => {
      for (const { id } of frames) if (this.#underWay.get(id) === done) this.#underWay.delete(id);
    };
    done.then(forget, forget);
    return done;
  }

  async #send(
    frames: readonly ShownOf<Value>[],
    chosen: Value,
    call: (seen: ReadonlyMap<string, Value>) => Promise<ReadonlySet<string>>,
  ): Promise<void> {
    const seen = new Map(frames.map(({ id, shown }) => [id, this.#seen(id, shown)]));
    // Where somebody else was first, what the page shows next is theirs, though it may be what it showed before one's own.
    for (const { id } of frames) this.#own.delete(id);
    const left = await call(seen);
    for (const { id, shown } of frames)
      if (!left.has(id)) this.#own.set(id, { shown, chosen, atMs: this.#now() });
  }

  #seen(frame: string, shown: Value): Value {
    const own = this.#own.get(frame);
    if (own === undefined || own.shown !== shown || this.#now() - own.atMs > comesBackMs) return shown;
    return own.chosen;
  }
}
