/** Where and when a finger was set down, CSS pixels of the window. */
export interface SwipeStart {
  readonly xCssPx: number;
  readonly yCssPx: number;
  readonly atMs: number;
}

/** Shorter is a tap with an unsteady thumb: about 7 mm on a phone. */
export const swipeCssPxMin = 44;
/** Slower is a finger that rests. */
export const swipeMsMax = 800;

/** The step a finger's way means: later to the left, earlier to the right, none where it went up or down or too little. */
export function swipeStep(from: SwipeStart, to: SwipeStart): -1 | 1 | null {
  const across = to.xCssPx - from.xCssPx;
  const along = to.yCssPx - from.yCssPx;
  if (Math.abs(across) < swipeCssPxMin || Math.abs(across) < 1.5 * Math.abs(along)) return null;
  if (to.atMs - from.atMs > swipeMsMax) return null;
  return across < 0 ? 1 : -1;
}
