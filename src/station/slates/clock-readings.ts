import type { EpochMs } from '../../base/index.ts';
import type { ClockReading } from '../../slate/index.ts';

/** How far a camera's clock was off when it last photographed a clock slate. */
export interface SeenClock extends ClockReading {
  readonly frame: string;
  /** When it was read. */
  readonly atMs: EpochMs;
}

/** The newest reading of each camera's clock in this run: an offer, which nobody has taken up yet. */
export class ClockReadings {
  readonly #byCamera = new Map<string, SeenClock>();

  set(camera: string, seen: SeenClock): void {
    this.#byCamera.set(camera, seen);
  }

  get(camera: string): SeenClock | null {
    return this.#byCamera.get(camera) ?? null;
  }
}
