import { type RefObject, useCallback, useLayoutEffect, useState } from 'react';

export interface SeenPart {
  readonly from: number;
  readonly to: number;
  /** To be called when the element was scrolled. */
  readonly look: () => void;
}

/** Drawn beyond the visible part, so that scrolling finds pictures already there. */
const beyondCssPx = 600;
/** The part moves in steps of this: between two of them a scrolling hand costs nothing. */
const stepCssPx = 300;

/** The part of a scrolled length that is to be drawn, CSS pixels. */
export function useSeenPart(scroller: RefObject<HTMLElement | null>): SeenPart {
  const [part, setPart] = useState({ from: 0, to: 0 });
  const look = useCallback(() => {
    if (scroller.current === null) return;
    const { scrollTop, clientHeight } = scroller.current;
    const from = Math.floor((scrollTop - beyondCssPx) / stepCssPx) * stepCssPx;
    const to = Math.ceil((scrollTop + clientHeight + beyondCssPx) / stepCssPx) * stepCssPx;
    setPart((before) => (before.from === from && before.to === to ? before : { from, to }));
  }, [scroller]);
  useLayoutEffect(() => {
    look();
    addEventListener('resize', look);
    return () => removeEventListener('resize', look);
  }, [look]);
  return { ...part, look };
}
