import { useEffect, useRef } from 'react';
import type { PageState } from '../state/index.ts';
import { type Followed, follow, followFrom } from './follow.ts';
import type { Telling } from './telling.ts';

/**
 * Hands on what is to be told of the frames, in the order of the shutter, several at once where they come at once. What was
 * there when the page opened is not told; while the line is down nothing is, and what came meanwhile is told afterwards.
 */
export function useTellings(
  { frames, link, allFrames }: Pick<PageState, 'frames' | 'link' | 'allFrames'>,
  hand: (tellings: readonly Telling[]) => void,
): void {
  const followed = useRef<Followed | null>(null);
  const latest = useRef(hand);
  latest.current = hand;
  const isLive = link.state === 'live';
  useEffect(() => {
    if (!isLive) return;
    if (followed.current === null) {
      followed.current = followFrom(frames);
      return;
    }
    const { followed: next, tell } = follow(followed.current, frames, allFrames);
    followed.current = next;
    if (tell.length > 0) latest.current(tell);
  }, [frames, isLive, allFrames]);
}
