import type { Frame } from '../../contract/index.ts';
import { aboutTheHouse, clockIsOff, type HouseFinding, instantMs } from '../state/index.ts';
import { dayAndTime } from './clock.ts';

/**
 * What is to be said of the clock of a frame's camera. Only a shutter after the arrival accuses it; one long before may
 * be a card brought from elsewhere.
 */
export function clockFindings(frame: Frame): HouseFinding[] {
  if (!clockIsOff(frame)) return [];
  const shutterMs = instantMs(frame.times.shutter) ?? 0;
  const arrivedMs = instantMs(frame.times.firstByte) ?? 0;
  const args = { shutter: dayAndTime(shutterMs), arrived: dayAndTime(arrivedMs) };
  return shutterMs > arrivedMs
    ? [aboutTheHouse('doubt', { code: 'page.camera-clock', args })]
    : [aboutTheHouse('unknown', { code: 'page.came-late', args })];
}
