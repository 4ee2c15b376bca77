import type { HashSession } from './hash-session.ts';

/**
 * Most hashes that wait for their file to go on, some hundred bytes each. A set has a few cameras with a broken-off file
 * or two; for the oldest beyond that the file is read again.
 */
export const parkedHashesMax = 64;

interface Parked {
  readonly sizeBytes: number;
  readonly session: HashSession;
}

/**
 * Hashes of files that broke off, kept where they stopped: a video of many gigabytes that is resumed near its end would
 * else be read once more from its start while the camera waits for its answer, and clients do not wait that long.
 */
export class ParkedHashes {
  readonly #parked = new Map<string, Parked>();

  /** Keeps the hash of an arrival's first `sizeBytes`. */
  park(arrival: string, sizeBytes: number, session: HashSession): void {
    this.#drop(arrival);
    this.#parked.set(arrival, { sizeBytes, session });
    const [oldest] = this.#parked.keys();
    if (this.#parked.size > parkedHashesMax && oldest !== undefined) this.#drop(oldest);
  }

  /** The hash of exactly so many bytes, the caller's from now on; null where there is none. */
  take(arrival: string, sizeBytes: number): HashSession | null {
    const parked = this.#parked.get(arrival);
    if (parked?.sizeBytes !== sizeBytes) {
      this.#drop(arrival);
      return null;
    }
    this.#parked.delete(arrival);
    return parked.session;
  }

  #drop(arrival: string): void {
    this.#parked.get(arrival)?.session.end();
    this.#parked.delete(arrival);
  }
}
