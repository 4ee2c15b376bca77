import type { CaptureFacts } from '../facts/index.ts';
import type { ClockSlate } from './payload.ts';

/** How far a camera's clock is off, from one frame of a clock slate. */
export interface ClockReading {
  /** The station's time minus the camera's, ms: what is to be added to the camera's. */
  readonly offsetMs: number;
  /** The truth lies within so much of it, either way, ms. */
  readonly plusMinusMs: number;
}

/**
 * From the drawing of a code to its light: a screen shows it one to three of its refreshes later, at 60 Hz 50 ms (common
 * practice, no source).
 */
const screenLagMs = 50;
/** Cameras write sub-seconds with two digits at least (Exif 2.32, SubSecTimeOriginal, leaves the digits to them). */
const subSecondStepMs = 10;
/** Without them the second has begun, and nobody knows how long ago. */
const secondMs = 1000;

/**
 * The clock's offset, or null where the camera told no shutter time. The light of the code came in while it stood on
 * the screen; the shutter may have opened before that by as much as the exposure lasted.
 */
export function measureClock(
  slate: ClockSlate,
  { shutter, exposureTimeS = 0 }: Pick<CaptureFacts, 'shutter' | 'exposureTimeS'>,
): ClockReading | null {
  if (shutter === undefined) return null;
  const exposureMs = Math.min(exposureTimeS * 1000, slate.refreshMs);
  const earliestMs = slate.atMs - slate.unsureMs - exposureMs;
  const latestMs = slate.atMs + slate.refreshMs + screenLagMs + slate.unsureMs;
  const stepMs = shutter.subSecondsKnown ? subSecondStepMs : secondMs;
  return {
    offsetMs: Math.round((earliestMs + latestMs) / 2 - (shutter.atMs + stepMs / 2)),
    plusMinusMs: Math.round((latestMs - earliestMs + stepMs) / 2),
  };
}
