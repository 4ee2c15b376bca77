import { dayMoment, shutterLagMsMax } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';

/** A camera's clock may run ahead by so much before it is worth a word; frames arrive seconds after their shutter. */
export const clockAheadMsMax = 60_000;

/**
 * Where a frame lies in the day, epoch milliseconds: its shutter where that can be believed, else when its first file began.
 * It stays there when the file is sent again, and has a place before a byte came.
 */
export function momentOf(frame: Frame): number {
  const known = moments.get(frame);
  if (known !== undefined) return known;
  const { times } = frame;
  const moment = dayMoment(instantMs(times.shutter), arrivedMs(times)) ?? instantMs(times.kept) ?? 0;
  moments.set(frame, moment);
  return moment;
}

/** Frames are never changed, and twenty thousand are put in order by this: no date is read twice. */
const moments = new WeakMap<Frame, number>();

function arrivedMs({ began, firstByte }: Frame['times']): number | null {
  return instantMs(began) ?? instantMs(firstByte);
}

/** Whether the camera's clock is plainly off: a frame cannot arrive before it was taken, nor half a day after. */
export function clockIsOff(frame: Frame): boolean {
  const shutter = instantMs(frame.times.shutter);
  const arrived = arrivedMs(frame.times);
  if (shutter === null || arrived === null) return false;
  return shutter - arrived > clockAheadMsMax || arrived - shutter > shutterLagMsMax;
}

export function instantMs(instant: string | null): number | null {
  return instant === null ? null : Date.parse(instant);
}
