import { type RefObject, useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { afterStep, type Spot, type ZoomStep, type ZoomView } from '../viewport/index.ts';
import { followHand } from './zoom-gestures.ts';
import { ZoomMotion } from './zoom-motion.ts';

/** How closely the picture is looked at, and what moves it. */
export interface Zoom {
  readonly motion: ZoomMotion;
  readonly take: (step: ZoomStep) => void;
}

/** Of one page. The view outlives the frames. */
export function useZoom(): Zoom {
  const motion = useMemo(() => new ZoomMotion(), []);
  const lookedAt = useRef<Spot>({ x: 0.5, y: 0.5 });
  useEffect(() => {
    const forget = motion.subscribe(() => {
      const { target } = motion;
      if (target?.scale === 1) lookedAt.current = { x: target.centreX, y: target.centreY };
    });
    return () => {
      forget();
      motion.stop();
    };
  }, [motion]);
  return useMemo(() => {
    const take = (step: ZoomStep): void => {
      const { stage } = motion;
      const from = motion.target ?? motion.wholeView;
      if (stage !== null && from !== null) motion.glideTo(afterStep(step, from, stage, lookedAt.current));
    };
    return { motion, take };
  }, [motion]);
}

/** Lets a hand on this element move the view. */
export function useHand(element: RefObject<HTMLElement | null>, motion: ZoomMotion): void {
  useEffect(
    () => (element.current === null ? undefined : followHand(element.current, motion)),
    [element, motion],
  );
}

/** The view as it is now, frame by frame; null for the whole picture. */
export function useView(motion: ZoomMotion): ZoomView | null {
  return useSyncExternalStore(motion.subscribe, () => motion.view);
}

/** The scale for people to read, which the whole picture has too; null while there is no picture. */
export function useScale(motion: ZoomMotion): number | null {
  return useSyncExternalStore(motion.subscribe, () => motion.figures?.scale ?? null);
}
