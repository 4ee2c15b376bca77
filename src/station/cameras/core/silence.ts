import type { EpochMs } from '../../../base/index.ts';

/** A camera that has sent a frame within this is being shot with (common practice, no source). */
export const shootingMs = 3_600_000;

export interface SilenceFacts {
  /** When its last frame was kept; null where none came since the station started. */
  readonly lastFrameMs: EpochMs | null;
  /** When it was last heard of at all. */
  readonly lastSeenMs: EpochMs | null;
  readonly connected: boolean;
  /** When somebody said that it is not shooting now. */
  readonly quietMs: EpochMs | null;
  readonly silentAfterMs: number;
  readonly nowMs: EpochMs;
}

/**
 * Since when a camera has been silent although it is being shot with, or null where there is nothing to say. A flat
 * battery and a Wi-Fi that has gone to sleep look like this; nobody at the set notices, because the shutter still fires.
 */
export function silentSinceMs(facts: SilenceFacts): EpochMs | null {
  const { lastFrameMs, lastSeenMs, connected, quietMs, silentAfterMs, nowMs } = facts;
  if (connected || lastFrameMs === null || nowMs - lastFrameMs > shootingMs) return null;
  if (quietMs !== null && quietMs >= lastFrameMs) return null;
  const last = Math.max(lastFrameMs, lastSeenMs ?? lastFrameMs);
  return nowMs - last >= silentAfterMs ? last : null;
}
