import type { OriginalTrouble } from '../keep/index.ts';

/**
 * The originals that were found not to be as they were received, for as long as the station runs: what is tried again
 * after a start is found again. Whoever listens hears each change once.
 */
export class BadOriginals {
  readonly #troubles = new Map<string, OriginalTrouble>();
  #changed: (frame: string) => void = () => {};

  /** How an arrival's original was found; null while nothing is known against it. */
  of(arrival: string): OriginalTrouble | null {
    return this.#troubles.get(arrival) ?? null;
  }

  /** An original was read, or not found. With null it is as it was received. */
  found({ arrival, frame }: FoundFile, trouble: OriginalTrouble | null): void {
    if (trouble === this.of(arrival)) return;
    if (trouble === null) this.#troubles.delete(arrival);
    else this.#troubles.set(arrival, trouble);
    this.#changed(frame);
  }

  /** One listener: it is told the frame. */
  onChange(changed: (frame: string) => void): void {
    this.#changed = changed;
  }
}

interface FoundFile {
  readonly arrival: string;
  readonly frame: string;
}
