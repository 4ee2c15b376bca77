import type { EpochMs } from './time.ts';

/**
 * How far a shutter may lie before the first byte and still place a frame in the day. A backlog after a lost network
 * is hours at most; a larger distance is a camera whose clock is off, and a frame placed there would never be seen.
 */
export const shutterLagMsMax = 6 * 3_600_000;

/**
 * Where a frame lies in the day: its shutter where that can be believed, else its first byte. One rule for the listing, the
 * order of developing and the page, or a camera with a wrong clock would be shown as newest and developed last. Null
 * where neither is known.
 */
export function dayMoment(shutterMs: EpochMs | null, firstByteMs: EpochMs | null): EpochMs | null {
  if (shutterMs === null || firstByteMs === null) return firstByteMs ?? shutterMs;
  return shutterMs > firstByteMs || firstByteMs - shutterMs > shutterLagMsMax ? firstByteMs : shutterMs;
}
