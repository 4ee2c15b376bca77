import type { Frame } from '../../contract/index.ts';
import { isArriving } from './shown-frame.ts';

/**
 * Which sentence stands where there is no picture of a frame. `waiting`: there should be one and it has not come through.
 * What is here already is never said to be still to come.
 */
export function noPictureCode(frame: Frame, waiting: boolean): string {
  if (isArriving(frame)) return waiting ? 'page.picture-waits' : 'page.no-picture-yet';
  const isHere = frame.files.every(({ state }) => state === 'whole' || state === 'unproved');
  if (!isHere) return 'page.no-picture-yet';
  return frame.picture.state === 'rendered' ? 'page.picture-loads' : 'page.being-rendered';
}
