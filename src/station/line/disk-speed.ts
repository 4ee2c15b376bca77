import { randomBytes } from 'node:crypto';
import { open, rm } from 'node:fs/promises';
import { join } from 'node:path';

/** Enough to see past a disk's own memory for small writes, little enough for a card. */
const trialBytes = 16 * 1024 * 1024;
/** A disk does not change from minute to minute, and a trial takes its time from frames. */
const validMs = 10 * 60_000;

/** How fast the home's disk takes bytes and has them safe, measured now and then. */
export class DiskSpeed {
  readonly #file: string;
  readonly #now: () => number;
  #measured: { readonly atMs: number; readonly bytesPerSecond: number | null } | null = null;

  constructor(home: string, now: () => number) {
    this.#file = join(home, 'disk-trial.tmp');
    this.#now = now;
  }

  /** Bytes a second; the last figure while it is fresh or the disk is `busy`; null where it could not be measured. */
  async read(busy: boolean): Promise<number | null> {
    const { atMs, bytesPerSecond } = this.#measured ?? {
      atMs: Number.NEGATIVE_INFINITY,
      bytesPerSecond: null,
    };
    if (busy || this.#now() - atMs < validMs) return bytesPerSecond;
    const measured = await this.#trial().catch(() => null);
    this.#measured = { atMs: this.#now(), bytesPerSecond: measured };
    return measured;
  }

  async #trial(): Promise<number> {
    // Chance, since some disks pack what repeats.
    const bytes = randomBytes(trialBytes);
    try {
      const file = await open(this.#file, 'w', 0o600);
      try {
        const startMs = performance.now();
        await file.write(bytes);
        await file.datasync();
        return (trialBytes / Math.max(0.1, performance.now() - startMs)) * 1000;
      } finally {
        await file.close();
      }
    } finally {
      await rm(this.#file, { force: true });
    }
  }
}
