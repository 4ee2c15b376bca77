import type { EpochMs } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import type { OriginalTrouble } from '../keep/index.ts';

/**
 * The originals that were found not to be as they were received, by copying or by verifying; what was found last stands.
 * Whoever listens hears each change once.
 */
export class BadOriginals {
  readonly #known = new Map<string, Known>();
  #changed: (frame: string) => void = () => {};

  /** How an arrival's original was found; null while nothing is known against it. */
  of(arrival: string): OriginalTrouble | null {
    return this.#known.get(arrival)?.trouble ?? null;
  }

  /** Every arrival that something is known against. */
  arrivals(): readonly string[] {
    return [...this.#known.keys()];
  }

  /** What is to be said of them all; null while nothing is known against any. `pathOf` gives null for one that is kept no more. */
  finding(pathOf: (arrival: string) => string | null): Finding | null {
    const paths = [...this.#known.keys()].flatMap((arrival) => pathOf(arrival) ?? []);
    const [original] = paths;
    if (original === undefined) return null;
    return { code: 'keep.originals-bad', args: { original, count: paths.length } };
  }

  /** An original was read then, or not found. With null it is as it was received. */
  found({ arrival, frame }: FoundFile, trouble: OriginalTrouble | null, atMs: EpochMs): void {
    const isNews = trouble !== this.of(arrival);
    if (trouble === null) this.#known.delete(arrival);
    else this.#known.set(arrival, { frame, trouble, atMs });
    if (isNews) this.#changed(frame);
  }

  /** All originals were read, beginning then, and these are bad. What was found bad since then stays. */
  allFound(bad: readonly (FoundFile & { readonly trouble: OriginalTrouble })[], beganMs: EpochMs): void {
    const named = new Set(bad.map(({ arrival }) => arrival));
    for (const [arrival, { frame, atMs }] of [...this.#known])
      if (!named.has(arrival) && atMs <= beganMs) this.found({ arrival, frame }, null, beganMs);
    for (const { trouble, ...file } of bad) this.found(file, trouble, beganMs);
  }

  /** One listener: it is told the frame. */
  onChange(changed: (frame: string) => void): void {
    this.#changed = changed;
  }
}

interface Known {
  readonly frame: string;
  readonly trouble: OriginalTrouble;
  readonly atMs: EpochMs;
}

interface FoundFile {
  readonly arrival: string;
  readonly frame: string;
}
