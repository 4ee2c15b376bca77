import type { Frame } from '../../contract/index.ts';
import { momentOf } from './moment.ts';

/** The frames the page knows, with their order in the day. Plain data: every change gives a new list. */
export interface FrameList {
  readonly byId: ReadonlyMap<string, Frame>;
  /** Ids by moment, newest last. */
  readonly order: readonly string[];
}

export const noFrames: FrameList = { byId: new Map(), order: [] };

export function frameListOf(frames: readonly Frame[]): FrameList {
  const byId = new Map(frames.map((frame) => [frame.id, frame]));
  return { byId, order: ordered(byId) };
}

/** The list with this frame as it is now; an older version of a frame already known changes nothing. */
export function withFrame(list: FrameList, frame: Frame): FrameList {
  const known = list.byId.get(frame.id);
  if (known !== undefined && known.version > frame.version) return list;
  const byId = new Map(list.byId).set(frame.id, frame);
  const stays = known !== undefined && momentOf(known) === momentOf(frame);
  return { byId, order: stays ? list.order : ordered(byId) };
}

export function withoutFrame(list: FrameList, id: string): FrameList {
  if (!list.byId.has(id)) return list;
  const byId = new Map(list.byId);
  byId.delete(id);
  return { byId, order: list.order.filter((other) => other !== id) };
}

/** Every frame, newest last. */
export function framesOf(list: FrameList): Frame[] {
  return list.order.flatMap((id) => list.byId.get(id) ?? []);
}

function ordered(byId: ReadonlyMap<string, Frame>): string[] {
  const rows = [...byId.values()].map((frame) => ({ id: frame.id, moment: momentOf(frame) }));
  rows.sort((one, other) => one.moment - other.moment || (one.id < other.id ? -1 : 1));
  return rows.map((row) => row.id);
}
