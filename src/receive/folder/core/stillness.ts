import type { EpochMs } from '../../../base/index.ts';
import type { FolderLimits } from './limits.ts';

/** What the system shows of a file without opening it. */
export interface Sight {
  readonly sizeBytes: number;
  /** Whole milliseconds. */
  readonly modifiedMs: EpochMs;
}

/** What a file's structure proves, as far as it goes. */
export type Proof = 'whole' | 'cut' | 'unknown';

export function sameSight(a: Sight, b: Sight): boolean {
  return a.sizeBytes === b.sizeBytes && a.modifiedMs === b.modifiedMs;
}

/**
 * How long a file has lain still. Measured by our own looks and clock: the time a file carries may be that of another
 * computer, of a camera, or of the original that a program copies.
 */
export class Stillness {
  #sight: Sight;
  #sinceMs: EpochMs;

  constructor(sight: Sight, nowMs: EpochMs) {
    this.#sight = sight;
    this.#sinceMs = nowMs;
  }

  get sight(): Sight {
    return this.#sight;
  }

  /** Notes a look; true where the file is as it was. */
  look(sight: Sight, nowMs: EpochMs): boolean {
    if (sameSight(sight, this.#sight)) return true;
    this.#sight = sight;
    this.#sinceMs = nowMs;
    return false;
  }

  stillMs(nowMs: EpochMs): number {
    return nowMs - this.#sinceMs;
  }
}

/** How long a file has to lie still before it is taken as all there is. */
export function stillnessNeededMs(proof: Proof, limits: FolderLimits): number {
  switch (proof) {
    case 'whole':
      return limits.quietMs;
    case 'unknown':
      return limits.patienceMs;
    case 'cut':
      return limits.cutPatienceMs;
  }
}
