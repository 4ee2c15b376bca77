import { useSyncExternalStore } from 'react';

/** Whether a media query holds now. */
export function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (changed) => {
      const list = matchMedia(query);
      list.addEventListener('change', changed);
      return () => list.removeEventListener('change', changed);
    },
    () => matchMedia(query).matches,
  );
}

/** Device pixels per CSS pixel; changes when the window goes to another screen or is zoomed. */
export function useDevicePixelRatio(): number {
  return useSyncExternalStore(
    (changed) => {
      addEventListener('resize', changed);
      return () => removeEventListener('resize', changed);
    },
    () => devicePixelRatio,
  );
}

/** A screen as narrow as a phone's held upright. */
export function useNarrow(): boolean {
  return useMedia('(max-width: 700px)');
}

/** A screen up to which the style sheets set everything smaller. */
export function useMiddling(): boolean {
  return useMedia('(max-width: 1400px)');
}
