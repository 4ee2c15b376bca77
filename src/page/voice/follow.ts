import type { Frame } from '../../contract/index.ts';
import type { Judgement } from '../../facts/index.ts';
import { type FrameList, instantMs, momentOf } from '../state/index.ts';
import { type Telling, tellingOf } from './telling.ts';

/** What has been told of which frame; null for frames that were there before anybody listened. */
export interface Followed {
  readonly frames: FrameList;
  readonly told: ReadonlyMap<string, Judgement | null>;
}

/** Older than this against the newest, a frame that is measured anew is no news. */
const newsMsMax = 10 * 60_000;

/** The beginning: everything that can be told by now was there before and stays unsaid. */
export function followFrom(frames: FrameList): Followed {
  const told = [...frames.byId.values()].filter((frame) => tellingOf(frame) !== null);
  return { frames, told: new Map(told.map(({ id }) => [id, null])) };
}

/**
 * What is to be told now that the frames are these, in the order of the shutter: each frame once, when it is measured; and
 * the newest once more where its answer has changed. While the listing is still being read, not `isWhole`, what lies before all
 * that was known is the day's history and no news.
 */
export function follow(
  followed: Followed,
  frames: FrameList,
  isWhole = true,
): { readonly followed: Followed; readonly tell: readonly Telling[] } {
  if (frames === followed.frames) return { followed, tell: [] };
  const newestId = frames.order.at(-1);
  const newestMs = Math.max(0, ...frames.order.slice(-20).map((id) => keptMs(frames.byId.get(id))));
  const said = new Map<string, Judgement | null>();
  const changed = frames.byId.changedSince(followed.frames.byId);
  const tell: Telling[] = [];
  const firstKnown = isWhole ? undefined : followed.frames.byId.get(followed.frames.order[0] ?? '');
  for (const frame of changed) {
    const telling = tellingOf(frame);
    if (telling === null) continue;
    const before = followed.told.get(frame.id);
    if (before === undefined && firstKnown !== undefined && momentOf(frame) < momentOf(firstKnown)) {
      said.set(frame.id, null);
      continue;
    }
    said.set(frame.id, telling.judgement);
    const isNews =
      before === undefined
        ? newestMs - keptMs(frame) <= newsMsMax
        : before !== null && before !== telling.judgement && frame.id === newestId;
    // Who accepts it stands at the page; and to call it good would not be true.
    if (isNews && !telling.accepted) tell.push(telling);
  }
  const place = new Map(tell.map(({ frame }) => [frame, frames.order.lastIndexOf(frame)]));
  tell.sort((one, other) => (place.get(one.frame) ?? 0) - (place.get(other.frame) ?? 0));
  const told = said.size === 0 ? followed.told : new Map([...followed.told, ...said]);
  return { followed: { frames, told }, tell };
}

function keptMs(frame: Frame | undefined): number {
  if (frame === undefined) return 0;
  return instantMs(frame.times.kept) ?? instantMs(frame.times.firstByte) ?? 0;
}
