import type { Frame } from '../../contract/index.ts';

/**
 * Whether its look cuts, turns or flips the picture that is shown, and the station has not told where to: the picture was
 * noted by an earlier version, and is about to be rendered again.
 */
export function isPlaceUntold(frame: Frame | null): boolean {
  const original = frame?.picture.state === 'rendered' ? frame.picture.original : null;
  return original !== null && original.toOriginal === null;
}
