import { type RefObject, useLayoutEffect, useMemo, useState } from 'react';
import type { Size } from '../../../image/index.ts';
import type { SizeCssPx } from '../../viewport/index.ts';

/** What the element leaves for the picture; null before it is laid out. */
export function useFree(area: RefObject<HTMLDivElement | null>): SizeCssPx | null {
  const [free, setFree] = useState<SizeCssPx | null>(null);
  useLayoutEffect(() => {
    const element = area.current;
    if (element === null) return;
    const observer = new ResizeObserver(() =>
      setFree({ widthCssPx: element.clientWidth, heightCssPx: element.clientHeight }),
    );
    observer.observe(element);
    return () => observer.disconnect();
  }, [area]);
  return free;
}

/** The free space in the canvas's own pixels. */
export function useRoom(free: SizeCssPx | null, devicePixelRatio: number): Size | null {
  return useMemo(
    () =>
      free === null
        ? null
        : {
            widthPx: Math.floor(free.widthCssPx * devicePixelRatio),
            heightPx: Math.floor(free.heightCssPx * devicePixelRatio),
          },
    [free, devicePixelRatio],
  );
}
