import { type RefObject, useEffect, useRef } from 'react';
import { type SwipeStart, swipeStep } from './swipe.ts';

/** A finger drawn across an element: to the left for the later frame, to the right for the earlier one. */
export function useSwipe(area: RefObject<HTMLElement | null>, step: (by: -1 | 1) => void): void {
  const latest = useRef(step);
  latest.current = step;
  useEffect(() => {
    const element = area.current;
    if (element === null) return undefined;
    let start: SwipeStart | null = null;
    const down = (event: PointerEvent): void => {
      // A second finger means something else.
      start = event.isPrimary
        ? { xCssPx: event.clientX, yCssPx: event.clientY, atMs: event.timeStamp }
        : null;
    };
    const up = (event: PointerEvent): void => {
      const by =
        start === null
          ? null
          : swipeStep(start, { xCssPx: event.clientX, yCssPx: event.clientY, atMs: event.timeStamp });
      start = null;
      if (by !== null) latest.current(by);
    };
    const cancel = (): void => {
      start = null;
    };
    element.addEventListener('pointerdown', down);
    element.addEventListener('pointerup', up);
    element.addEventListener('pointercancel', cancel);
    return () => {
      element.removeEventListener('pointerdown', down);
      element.removeEventListener('pointerup', up);
      element.removeEventListener('pointercancel', cancel);
    };
  }, [area]);
}
