import { type RefObject, useCallback, useEffect, useState } from 'react';

/** The frame that is pointed at or has the focus, and where its flag goes, CSS pixels from the rail's left top. */
export interface PointedAt {
  readonly id: string;
  readonly left: number;
  readonly top: number;
}

export interface Pointed {
  readonly at: PointedAt | null;
  /** Null where nothing is pointed at any longer. */
  readonly point: (id: string, element: HTMLElement | null) => void;
}

/**
 * What on the rail is pointed at. It goes with Escape, with scrolling, and with the pointer (WCAG 2.2, 1.4.13: what comes
 * with pointing can be sent away and stays while it is wanted).
 */
export function usePointed(scroller: RefObject<HTMLElement | null>): Pointed {
  const [at, setAt] = useState<PointedAt | null>(null);
  const point = useCallback((id: string, element: HTMLElement | null) => {
    const rail = element?.closest('.rail');
    if (element === null || rail == null) {
      setAt((before) => (before?.id === id ? null : before));
      return;
    }
    const [own, whole] = [element.getBoundingClientRect(), rail.getBoundingClientRect()];
    setAt({ id, left: own.right - whole.left, top: own.top - whole.top });
  }, []);
  const shown = at !== null;
  useEffect(() => {
    if (!shown) return;
    const leave = (): void => setAt(null);
    const press = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') leave();
    };
    const element = scroller.current;
    element?.addEventListener('scroll', leave);
    addEventListener('keydown', press);
    return () => {
      element?.removeEventListener('scroll', leave);
      removeEventListener('keydown', press);
    };
  }, [shown, scroller]);
  return { at, point };
}
