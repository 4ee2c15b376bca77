import type { EpochMs } from '../../base/index.ts';
import type { DoorLimits } from './limits.ts';

/**
 * What a kept file earns: its own announcement back, and the folder, the rename and the time that belong to it. So a
 * camera that sends files never waits, however small and many they are.
 */
const changesPerKeptFile = 4;

/** The bounds of a camera's changes, which every door has; the doors of a station share one budget. */
export type ChangeLimits = Pick<DoorLimits, 'changesPerSecondMax' | 'changesAtOnceMax'>;

/**
 * How fast each camera may change its folder. Every change is a durable record, so a client that renames for ever
 * would fill the disk with journal. Nothing is refused: beyond the budget a change waits its time.
 *
 * Kept as the moment at which a camera will owe nothing (the generic cell rate algorithm, ITU-T I.371 annex A), so that
 * a camera is one number.
 */
export class ChangeBudget {
  readonly #intervalMs: number;
  readonly #burstMs: number;
  readonly #paidUpMs = new Map<string, EpochMs>();

  constructor({ changesPerSecondMax, changesAtOnceMax }: ChangeLimits) {
    this.#intervalMs = 1000 / changesPerSecondMax;
    this.#burstMs = this.#intervalMs * changesAtOnceMax;
  }

  /** Counts one change and says how long it has to wait, ms. */
  spend(camera: string, nowMs: EpochMs): number {
    const paidUpMs = Math.max(this.#paidUpMs.get(camera) ?? 0, nowMs) + this.#intervalMs;
    this.#paidUpMs.set(camera, paidUpMs);
    return Math.max(0, paidUpMs - this.#burstMs - nowMs);
  }

  /** A file was kept. */
  earn(camera: string): void {
    const paidUpMs = this.#paidUpMs.get(camera);
    if (paidUpMs !== undefined) {
      this.#paidUpMs.set(camera, paidUpMs - changesPerKeptFile * this.#intervalMs);
    }
  }
}
