import type { CopySpace, Finding, ShareBox } from '../facts/index.ts';
import type { Size } from '../image/index.ts';
import type { SizePlan } from './plan-size.ts';

/**
 * How far the box around a subject may reach into the room for words before it is said, share of the delivered picture: the box is told to
 * about a pixel of a small view (common practice, no source).
 */
const reachMin = 0.005;

/**
 * What is to be said of the room for words in a delivered picture: that what is photographed stands in it, or that nobody can tell. Nothing
 * where none is kept free, or it is free. `subject`: shares of the upright picture; null where it was not told. By the box around it, so that
 * a handle that reaches in is said, and so is the air beside the handle.
 */
export function wordsRoomFindings(
  picture: Size,
  subject: ShareBox | null,
  { window }: Pick<SizePlan, 'window'>,
  copySpace: CopySpace | null,
): readonly Finding[] {
  if (copySpace === null) return [];
  const { side, sharePercent } = copySpace;
  if (subject === null) return [{ code: 'deliver.words-room-not-told', args: { side } }];
  const x = (share: number): number => within((share * picture.widthPx - window.leftPx) / window.widthPx);
  const y = (share: number): number => within((share * picture.heightPx - window.topPx) / window.heightPx);
  const box = {
    left: x(subject.left),
    top: y(subject.top),
    right: x(subject.right),
    bottom: y(subject.bottom),
  };
  const isSeen = box.right > box.left && box.bottom > box.top;
  const room = sharePercent / 100;
  const reach = isSeen ? reachOf(box, side, room) : 0;
  if (reach <= reachMin) return [];
  return [
    { code: 'deliver.subject-in-words-room', args: { side, percent: Math.round((100 * reach) / room) } },
  ];
}

/** How deep the box stands in the room along `side`, share of the delivered picture; at most the room. */
function reachOf({ left, top, right, bottom }: ShareBox, side: CopySpace['side'], room: number): number {
  const near = { left, top, right: 1 - right, bottom: 1 - bottom }[side];
  return Math.max(0, room - near);
}

function within(share: number): number {
  return Math.max(0, Math.min(1, share));
}
