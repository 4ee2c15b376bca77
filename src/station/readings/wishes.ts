import type { CaptureFacts, ShareBox } from '../../facts/index.ts';
import { noWishes, type ReadingWishes, uprightBox } from '../../judge/index.ts';

/** What is wanted of a frame's readings: focus is read where a person pointed, else where the camera says that it focused. */
export function wishesOf(
  { focusArea, orientation = 1 }: CaptureFacts,
  pointedOut: ShareBox | null = null,
): ReadingWishes {
  if (pointedOut !== null) return { ...noWishes, spot: { ...pointedOut, teller: 'given' } };
  if (focusArea === undefined) return noWishes;
  return { ...noWishes, spot: { ...uprightBox(focusArea, orientation), teller: 'camera' } };
}
