import type { Frame } from '../../contract/index.ts';
import { FrameMap } from './frame-map.ts';
import { momentOf } from './moment.ts';

/** The frames the page knows, with their order in the day. Plain data: every change gives a new list. */
export interface FrameList {
  readonly byId: FrameMap;
  /** Ids by moment, newest last. */
  readonly order: readonly string[];
}

export const noFrames: FrameList = { byId: FrameMap.of([]), order: [] };

export function frameListOf(frames: readonly Frame[]): FrameList {
  const byId = FrameMap.of(frames);
  return { byId, order: ordered(byId) };
}

/** The list with this frame as it is now; an older version of a frame already known changes nothing. */
export function withFrame(list: FrameList, frame: Frame): FrameList {
  const known = list.byId.get(frame.id);
  if (known !== undefined && known.version > frame.version) return list;
  const byId = list.byId.with(frame);
  if (known !== undefined && momentOf(known) === momentOf(frame)) return { byId, order: list.order };
  const others = known === undefined ? list.order : list.order.filter((id) => id !== frame.id);
  const place = placeOf(frame, others, byId);
  return { byId, order: [...others.slice(0, place), frame.id, ...others.slice(place)] };
}

/** The list with a page of the station's listing, which is as things are now. */
export function withFrames(list: FrameList, frames: readonly Frame[]): FrameList {
  if (frames.length === 0) return list;
  const byId = list.byId.withAll(frames);
  return { byId, order: ordered(byId) };
}

/** Only the frames that the station still lists. */
export function onlyFrames(list: FrameList, ids: ReadonlySet<string>): FrameList {
  if (list.order.every((id) => ids.has(id))) return list;
  return { byId: list.byId.only((id) => ids.has(id)), order: list.order.filter((id) => ids.has(id)) };
}

export function withoutFrame(list: FrameList, id: string): FrameList {
  if (!list.byId.has(id)) return list;
  return {
    byId: list.byId.only((other) => other !== id),
    order: list.order.filter((other) => other !== id),
  };
}

/** Every frame, newest last. */
export function framesOf(list: FrameList): Frame[] {
  return list.order.flatMap((id) => list.byId.get(id) ?? []);
}

function ordered(byId: FrameMap): string[] {
  return [...byId.values()].sort(inOrder).map(({ id }) => id);
}

function inOrder(one: Frame, other: Frame): number {
  return momentOf(one) - momentOf(other) || (one.id < other.id ? -1 : 1);
}

/** Where a frame stands among others that are in order: most come at the end. */
function placeOf(frame: Frame, order: readonly string[], byId: FrameMap): number {
  let [low, high] = [0, order.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const there = byId.get(order[middle] ?? '');
    if (there !== undefined && inOrder(there, frame) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}
