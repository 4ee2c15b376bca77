import { type RefObject, useEffect, useState } from 'react';
import type { RgbHalf } from '../../../image/index.ts';
import { glPainter } from '../painter/gl-painter.ts';
import type { Placed } from '../painter/painter.ts';
import { plainPainter } from '../painter/plain-painter.ts';
import { Show } from './show.ts';

/** What paints on the canvas as long as the page is open: a canvas that was given to WebGL is never another's. */
export function useShow(canvas: RefObject<HTMLCanvasElement | null>): Show | null {
  const [show, setShow] = useState<Show | null>(null);
  useEffect(() => {
    const element = canvas.current;
    if (element === null) return;
    const made = new Show(glPainter(element) ?? plainPainter(element));
    setShow(made);
    return () => made.close();
  }, [canvas]);
  return show;
}

export function usePlaced(show: Show | null, scene: RgbHalf | null, placed: Placed | null): void {
  useEffect(() => {
    if (show !== null && scene !== null) show.setScene(scene);
  }, [show, scene]);
  const key = placed === null ? '' : JSON.stringify(placed);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the place
  useEffect(() => {
    if (show !== null && placed !== null) show.place(placed);
  }, [show, key]);
}
