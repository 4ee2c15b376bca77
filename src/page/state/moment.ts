import { dayMoment, shutterLagMsMax } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';

/** A camera's clock may run ahead by so much before it is worth a word; frames arrive seconds after their shutter. */
export const clockAheadMsMax = 60_000;

/** Where a frame lies in the day, epoch milliseconds: its shutter where that can be believed, else its first byte. */
export function momentOf({ times }: Frame): number {
  return dayMoment(instantMs(times.shutter), instantMs(times.firstByte)) ?? instantMs(times.kept) ?? 0;
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
