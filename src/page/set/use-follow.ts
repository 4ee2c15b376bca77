import { type RefObject, useCallback, useLayoutEffect, useState } from 'react';

export interface Follow {
  /** Whether the newest is in sight. */
  readonly isAtEnd: boolean;
  /** To be called when the rail was scrolled. */
  readonly look: () => void;
  readonly toEnd: () => void;
}

/** So near to its end a rail counts as being there: less than a frame. */
const endCssPx = 40;

/**
 * Keeps the newest in sight while the page follows it, and otherwise the frame that is shown. A rail that somebody
 * scrolled away from its end stays where it is: a frame that comes meanwhile takes nothing from under their hand.
 */
export function useFollow(
  scroller: RefObject<HTMLElement | null>,
  following: boolean,
  shownId: string | null,
  heightCssPx: number,
): Follow {
  const [isAtEnd, setAtEnd] = useState(true);
  const look = useCallback(() => {
    const element = scroller.current;
    if (element === null) return;
    setAtEnd(element.scrollTop + element.clientHeight >= element.scrollHeight - endCssPx);
  }, [scroller]);
  const toEnd = useCallback(() => {
    const element = scroller.current;
    if (element !== null) element.scrollTop = element.scrollHeight;
  }, [scroller]);
  useLayoutEffect(() => {
    if (following) toEnd();
  }, [following, toEnd]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: when the rail grows, and not when it is scrolled back
  useLayoutEffect(() => {
    if (following && isAtEnd) toEnd();
  }, [heightCssPx]);
  useLayoutEffect(() => {
    if (following || shownId === null) return;
    const shown = scroller.current?.querySelector('[aria-current="true"]');
    shown?.scrollIntoView({ block: 'nearest' });
    // The focus goes along where it was on the rail already, so that Tab goes on from the frame that is shown.
    const focused = document.activeElement;
    if (shown instanceof HTMLElement && focused?.closest('.rail-frame') != null)
      shown.focus({ preventScroll: true });
  }, [scroller, following, shownId]);
  return { isAtEnd, look, toEnd };
}
