import { type EpochMs, KiB } from '../../base/index.ts';

/** The first view of a raw file is often within its first bytes: one early word lets somebody look for it. */
export const earlyBytes: number = 64 * KiB;
/**
 * Word of progress goes out so often at most: at 4 MB/s within 200 kB of a preview's last byte, and on a fast line no
 * oftener, since each word costs the station a look into its register.
 */
export const beatMs = 50;

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
    const due = early || nowMs - this.#toldMs >= beatMs;
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
