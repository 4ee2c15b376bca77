import type { Frame } from '../../contract/index.ts';
import type { FrameList } from './frame-list.ts';

interface Following {
  readonly frames: FrameList;
  readonly chosen: string | null;
}

/**
 * The frame the page speaks of: the chosen one, else the newest that has something to show or to say. A frame whose
 * first bytes are only coming in has neither, so the one before stays until the first view is there.
 */
export function shownFrame({ frames, chosen }: Following): Frame | null {
  if (chosen !== null) return frames.byId.get(chosen) ?? null;
  for (let index = frames.order.length - 1; index >= 0; index -= 1) {
    const frame = frames.byId.get(frames.order[index] ?? '');
    if (frame !== undefined && hasSomethingToShow(frame)) return frame;
  }
  return newestFrame(frames);
}

export function newestFrame(frames: FrameList): Frame | null {
  return frames.byId.get(frames.order.at(-1) ?? '') ?? null;
}

/** Frames that are still coming in and are newer than what is shown: said beside it, not instead of it. */
export function onTheWay(following: Following): Frame | null {
  const newest = newestFrame(following.frames);
  const shown = shownFrame(following);
  return newest !== null && newest.id !== shown?.id && isArriving(newest) ? newest : null;
}

export function isArriving(frame: Frame): boolean {
  return frame.files.some((file) => file.state === 'arriving');
}

function hasSomethingToShow(frame: Frame): boolean {
  return frame.picture.state !== 'none' || !isArriving(frame);
}
