/** What an arrow moves a cross or a frame by that lies over the picture, a share of its box. */
export const stepShare = 0.005;
/** As many steps with Shift, here as wherever else arrows turn something on the Look page. */
export const shiftSteps = 10;

/** How far an arrow goes, shares of the box; nothing for any other key. */
export function arrowStep({
  key,
  shiftKey,
}: {
  readonly key: string;
  readonly shiftKey: boolean;
}): readonly [right: number, down: number] {
  const by = shiftKey ? stepShare * shiftSteps : stepShare;
  const [right, down] = arrowOf(key);
  return [right * by, down * by];
}

export function arrowOf(key: string): readonly [right: -1 | 0 | 1, down: -1 | 0 | 1] {
  if (key === 'ArrowLeft') return [-1, 0];
  if (key === 'ArrowRight') return [1, 0];
  if (key === 'ArrowUp') return [0, -1];
  return key === 'ArrowDown' ? [0, 1] : [0, 0];
}
