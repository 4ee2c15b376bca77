import type { Frame } from '../../contract/index.ts';

/**
 * Whether its look cuts, turns or flips the picture that is shown: what was read lies in the whole original, at other places
 * than in the picture.
 */
export function isPlacedOtherwise(frame: Frame | null): boolean {
  return frame?.picture.state === 'rendered' && frame.picture.original !== null;
}
