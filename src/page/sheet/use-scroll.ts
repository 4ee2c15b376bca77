import { type RefObject, useCallback, useLayoutEffect, useState } from 'react';

/** What of the sheet is seen, CSS pixels. */
export interface SeenStretch {
  readonly top: number;
  readonly height: number;
  readonly width: number;
}

/**
 * Scrolling tells only when it has gone so far, nearly two rows: each time all cells are compared with those before. What lies
 * beyond the edges is drawn ahead by more, on a phone too.
 */
const stepCssPx = 240;

/** Follows how far an element is scrolled, by steps, and how large it is. */
export function useScroll(element: RefObject<HTMLElement | null>): {
  readonly seen: SeenStretch;
  readonly look: () => void;
} {
  const [seen, setSeen] = useState<SeenStretch>({ top: 0, height: 0, width: 0 });
  const look = useCallback(() => {
    const box = element.current;
    if (box === null) return;
    const top = Math.floor(box.scrollTop / stepCssPx) * stepCssPx;
    const [height, width] = [box.clientHeight, box.clientWidth];
    setSeen((before) =>
      before.top === top && before.height === height && before.width === width
        ? before
        : { top, height, width },
    );
  }, [element]);
  useLayoutEffect(() => {
    if (element.current === null) return;
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element.current);
    return () => observer.disconnect();
  }, [element, look]);
  return { seen, look };
}
