/** What an arrow moves a cross, a frame or a mark by that lies over a picture, a share of its box. */
const stepShare = 0.005;
/** As many steps with Shift, wherever arrows move or turn something on the pages. */
export const shiftSteps = 10;

/** How far an arrow goes, shares of the box; nothing for any other key. `share`: of one step, where it is another. */
export function arrowStep(
  { key, shiftKey }: { readonly key: string; readonly shiftKey: boolean },
  share: number = stepShare,
): readonly [right: number, down: number] {
  const by = shiftKey ? share * shiftSteps : share;
  const [right, down] = arrowOf(key);
  return [right * by, down * by];
}

export function arrowOf(key: string): readonly [right: -1 | 0 | 1, down: -1 | 0 | 1] {
  if (key === 'ArrowLeft') return [-1, 0];
  if (key === 'ArrowRight') return [1, 0];
  if (key === 'ArrowUp') return [0, -1];
  return key === 'ArrowDown' ? [0, 1] : [0, 0];
}
