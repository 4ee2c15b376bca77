import { type RefObject, useCallback, useLayoutEffect, useRef, useState } from 'react';
import { atRest, flightSeen, landedScreens } from '../viewport/index.ts';

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
  /** It goes by too fast for pictures to be looked at. */
  readonly flying: boolean;
} {
  const [seen, setSeen] = useState<SeenStretch>({ top: 0, height: 0, width: 0 });
  const [flying, setFlying] = useState(false);
  const flight = useRef(atRest);
  const landing = useRef(0);
  const land = useCallback(
    (top: number, same: number) => {
      landing.current = requestAnimationFrame(() => {
        const now = element.current?.scrollTop ?? top;
        const count = now === top ? same + 1 : 0;
        if (count < landedScreens) return land(now, count);
        landing.current = 0;
        flight.current = atRest;
        setFlying(false);
      });
    },
    [element],
  );
  const look = useCallback(() => {
    const box = element.current;
    if (box === null) return;
    flight.current = flightSeen(flight.current, box.scrollTop, box.clientHeight, performance.now());
    setFlying(flight.current.flying);
    if (flight.current.flying && landing.current === 0) land(box.scrollTop, 0);
    const top = Math.floor(box.scrollTop / stepCssPx) * stepCssPx;
    const [height, width] = [box.clientHeight, box.clientWidth];
    setSeen((before) =>
      before.top === top && before.height === height && before.width === width
        ? before
        : { top, height, width },
    );
  }, [element, land]);
  useLayoutEffect(() => {
    if (element.current === null) return;
    look();
    const observer = new ResizeObserver(look);
    observer.observe(element.current);
    return () => {
      observer.disconnect();
      cancelAnimationFrame(landing.current);
      landing.current = 0;
    };
  }, [element, look]);
  return { seen, look, flying };
}
