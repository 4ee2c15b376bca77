import { type EpochMs, KiB } from '../../base/index.ts';

/** The first view of a raw file is often within its first bytes: one early word lets somebody look for it. */
export const earlyBytes: number = 64 * KiB;
/** Word of progress goes out after so many bytes … */
export const beatBytes: number = 256 * KiB;
/** … or after so long, whichever comes first: ten times a second is as smooth as a bar on a page needs. */
export const beatMs = 100;

/** Decides when progress is worth a word. Holds two numbers, asks no clock. */
export class ProgressBeat {
  #toldBytes: number;
  #toldMs: EpochMs;
  #early = false;

  constructor(startBytes: number, nowMs: EpochMs) {
    this.#toldBytes = startBytes;
    this.#toldMs = nowMs;
  }

  /** Whether to tell that so many bytes are here now. */
  due(sizeBytes: number, nowMs: EpochMs): boolean {
    const early = !this.#early && sizeBytes >= earlyBytes;
    const due = early || sizeBytes - this.#toldBytes >= beatBytes || nowMs - this.#toldMs >= beatMs;
    if (!due || sizeBytes === this.#toldBytes) return false;
    this.#told(sizeBytes, nowMs);
    return true;
  }

  /** Whether anything is untold when the line pauses. */
  last(sizeBytes: number, nowMs: EpochMs): boolean {
    if (sizeBytes === this.#toldBytes) return false;
    this.#told(sizeBytes, nowMs);
    return true;
  }

  #told(sizeBytes: number, nowMs: EpochMs): void {
    if (sizeBytes >= earlyBytes) this.#early = true;
    this.#toldBytes = sizeBytes;
    this.#toldMs = nowMs;
  }
}
