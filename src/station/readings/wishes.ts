import type { CaptureFacts } from '../../facts/index.ts';
import { noWishes, type ReadingWishes, uprightBox } from '../../judge/index.ts';

/** What is wanted of a frame's readings: focus is read where the camera says that it focused. */
export function wishesOf({ focusArea, orientation = 1 }: CaptureFacts): ReadingWishes {
  if (focusArea === undefined) return noWishes;
  return { ...noWishes, spot: { ...uprightBox(focusArea, orientation), teller: 'camera' } };
}
