import type { EpochMs } from '../../../base/index.ts';
import { type Sight, Stillness } from './stillness.ts';

/** A file that was found and is not taken yet. */
export interface WaitingFile {
  /** Below the watched folder, `/` between names. */
  readonly path: string;
  readonly stillness: Stillness;
  /** Not tried again before; 0 where it was not tried yet. */
  readonly notBeforeMs: EpochMs;
  /** How often it changed while it was being taken. */
  readonly tries: number;
  /** Turned up while the folder was watched, so that somebody is perhaps still writing it. */
  readonly isFresh: boolean;
}

/** The files that wait for their turn, each once. Bounded; what does not fit is found again at the next look. */
export class WaitingFiles {
  readonly #files = new Map<string, WaitingFile>();
  readonly #sizeMax: number;

  constructor(sizeMax: number) {
    this.#sizeMax = sizeMax;
  }

  get size(): number {
    return this.#files.size;
  }

  /** Notes that a file was seen so. False where there is no room for one more. */
  see(path: string, sight: Sight, nowMs: EpochMs, isFresh: boolean): boolean {
    const known = this.#files.get(path);
    if (known !== undefined) {
      known.stillness.look(sight, nowMs);
      return true;
    }
    if (this.#files.size >= this.#sizeMax) return false;
    this.#files.set(path, {
      path,
      stillness: new Stillness(sight, nowMs),
      notBeforeMs: 0,
      tries: 0,
      isFresh,
    });
    return true;
  }

  /** Puts one back that could not be taken, to be tried again from `notBeforeMs` on, and then once it lies still. */
  putBack(file: WaitingFile, notBeforeMs: EpochMs, tries: number): void {
    this.#files.set(file.path, { ...file, notBeforeMs, tries, isFresh: false });
  }

  forget(path: string): void {
    this.#files.delete(path);
  }

  clear(): void {
    this.#files.clear();
  }

  /** The next file to copy, taken out: one that has lain still long enough, the newest first; null where there is none. */
  nextStill(quietMs: number, nowMs: EpochMs): WaitingFile | null {
    return this.#take((file) => file.notBeforeMs <= nowMs && file.stillness.stillMs(nowMs) >= quietMs);
  }

  /** The next file to follow while it grows, taken out: one that turned up just now. */
  nextFresh(nowMs: EpochMs): WaitingFile | null {
    return this.#take((file) => file.isFresh && file.notBeforeMs <= nowMs);
  }

  #take(fits: (file: WaitingFile) => boolean): WaitingFile | null {
    let newest: WaitingFile | null = null;
    for (const file of this.#files.values()) {
      if (!fits(file)) continue;
      if (newest === null || isNewer(file, newest)) newest = file;
    }
    if (newest !== null) this.#files.delete(newest.path);
    return newest;
  }
}

/** By time; where a card's times are too coarse, by name, since counters count up. */
function isNewer(a: WaitingFile, b: WaitingFile): boolean {
  const { modifiedMs } = a.stillness.sight;
  const other = b.stillness.sight.modifiedMs;
  return modifiedMs === other ? a.path > b.path : modifiedMs > other;
}
