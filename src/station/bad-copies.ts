import type { Finding } from '../facts/index.ts';
import type { KeepEvent } from '../keep/index.ts';

/** A copy that reading found not to be as it was made. */
export interface BadCopy {
  readonly arrival: string;
  readonly frame: string;
  readonly place: string;
}

/**
 * The copies that verifying found bad and the journal still counts, until they are lost or made anew. Whoever listens
 * hears of each frame that a change is about.
 */
export class BadCopies {
  #bad = new Map<string, BadCopy>();
  /** Places whose copy of the journal was found bad. */
  #journals: ReadonlySet<string> = new Set();
  #changed: (frame: string) => void = () => {};

  has(arrival: string, place: string): boolean {
    return this.#bad.has(keyOf(arrival, place));
  }

  /** What is to be said of a place, known by its id and folder; null where nothing is known against it. */
  findingIn(place: string, folder: string): Finding | null {
    const count = [...this.#bad.values()].filter((copy) => copy.place === place).length;
    if (count > 0) return { code: 'copy.found-bad', args: { folder, count } };
    return this.#journals.has(place) ? { code: 'copy.journal-found-bad', args: { folder } } : null;
  }

  /** Everything was read, and these are bad: what was known before is known no more. */
  allFound(bad: readonly BadCopy[], journals: readonly string[]): void {
    const before = this.#bad;
    this.#bad = new Map(bad.map((copy) => [keyOf(copy.arrival, copy.place), copy]));
    this.#journals = new Set(journals);
    const news = [
      ...[...before].filter(([key]) => !this.#bad.has(key)),
      ...[...this.#bad].filter(([key]) => !before.has(key)),
    ];
    for (const frame of new Set(news.map(([, copy]) => copy.frame))) this.#changed(frame);
  }

  /** A copy that is lost counts no more anyway, and one that was made now is another. Both are told as what they are. */
  hear(event: KeepEvent): void {
    if (event.type === 'copied' || event.type === 'copy-lost')
      this.#bad.delete(keyOf(event.arrival, event.place));
  }

  /** One listener: it is told the frame. */
  onChange(changed: (frame: string) => void): void {
    this.#changed = changed;
  }
}

function keyOf(arrival: string, place: string): string {
  return `${arrival}\n${place}`;
}
