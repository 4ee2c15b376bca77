import { useSyncExternalStore } from 'react';

export interface FullScreen {
  readonly can: boolean;
  readonly on: boolean;
  toggle(): void;
}

/** The page without the browser's frame about it; the browser's own Escape leaves it too. */
export function useFullScreen(): FullScreen {
  const on = useSyncExternalStore(
    (changed) => {
      document.addEventListener('fullscreenchange', changed);
      return () => document.removeEventListener('fullscreenchange', changed);
    },
    () => document.fullscreenElement !== null,
  );
  const toggle = (): void => {
    // A browser that refuses leaves the page as it is.
    const asked = on ? document.exitFullscreen() : document.documentElement.requestFullscreen();
    void asked.catch(() => undefined);
  };
  return { can: document.fullscreenEnabled, on, toggle };
}
