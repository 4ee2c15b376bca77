import type { Frame } from '../../contract/index.ts';

/**
 * How far a shutter may lie before the first byte and still place a frame in the day. A backlog after a lost network
 * is hours at most; a larger distance is a camera whose clock is off, and a frame placed there would never be seen.
 */
export const shutterLagMsMax = 6 * 3_600_000;
/** A camera's clock may run ahead by so much before it is worth a word; frames arrive seconds after their shutter. */
export const clockAheadMsMax = 60_000;

/** Where a frame lies in the day, epoch milliseconds: its shutter where that can be believed, else its first byte. */
export function momentOf(frame: Frame): number {
  const shutter = instantMs(frame.times.shutter);
  const firstByte = instantMs(frame.times.firstByte);
  if (firstByte === null) return shutter ?? instantMs(frame.times.kept) ?? 0;
  if (shutter === null || shutter > firstByte || firstByte - shutter > shutterLagMsMax) return firstByte;
  return shutter;
}

/** Whether the camera's clock is plainly off: a frame cannot arrive before it was taken, nor half a day after. */
export function clockIsOff(frame: Frame): boolean {
  const shutter = instantMs(frame.times.shutter);
  const firstByte = instantMs(frame.times.firstByte);
  if (shutter === null || firstByte === null) return false;
  return shutter - firstByte > clockAheadMsMax || firstByte - shutter > shutterLagMsMax;
}

export function instantMs(instant: string | null): number | null {
  return instant === null ? null : Date.parse(instant);
}
