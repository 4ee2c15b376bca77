/** A shot's order as it is drawn, and which version of the job it is of. */
export interface DrawnOrder {
  readonly order: readonly string[];
  readonly version: number;
}

/** Says the order to the station; gives the version that the job has then. */
export type SayOrder = (shot: string, order: readonly string[], version: number) => Promise<number>;

/**
 * Orders that one person gives one after the other, faster than the page is told what became of them: each goes out when the one
 * before is answered, with the version of that answer, and counts from what was asked last. Where one is refused, what was asked behind
 * it falls with it: it was counted from what did not come.
 */
export class OrderQueue {
  readonly #say: SayOrder;
  readonly #asked = new Map<string, readonly string[]>();
  #version = 0;
  #last: Promise<void> = Promise.resolve();
  #waiting = 0;
  #round = 0;

  constructor(say: SayOrder) {
    this.#say = say;
  }

  /** The order that a next step counts from: what was asked last, until that is drawn. */
  standing(shot: string, drawn: DrawnOrder): readonly string[] {
    if (this.#waiting === 0 && drawn.version >= this.#version) this.#asked.clear();
    const asked = this.#asked.get(shot);
    // A frame that was chosen, or is chosen no more, since it was asked: what is drawn knows better.
    const isSame = asked?.length === drawn.order.length && asked.every((id) => drawn.order.includes(id));
    return isSame ? asked : drawn.order;
  }

  /** Rejects with the refusal; where the one before it was refused, it settles without having been said. */
  ask(shot: string, order: readonly string[], drawn: DrawnOrder): Promise<void> {
    // Two who order at once: the second is told, so a version that this page has not seen is never taken for its own.
    if (this.#waiting === 0) this.#version = Math.max(this.#version, drawn.version);
    this.#asked.set(shot, order);
    this.#waiting += 1;
    const round = this.#round;
    const said = this.#last.then(async () => {
      try {
        if (round === this.#round) this.#version = await this.#say(shot, order, this.#version);
      } catch (thrown) {
        this.#round += 1;
        this.#version = 0;
        this.#asked.clear();
        throw thrown;
      } finally {
        this.#waiting -= 1;
      }
    });
    this.#last = said.catch(() => undefined);
    return said;
  }
}
