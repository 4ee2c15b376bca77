import type { EpochMs } from '../../base/index.ts';

/** The moment by a clock that never jumps: it was set when the process began and only runs on. */
export function nowMs(): EpochMs {
  return Math.round(performance.timeOrigin + performance.now());
}
