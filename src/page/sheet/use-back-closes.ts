import { useEffect, useRef } from 'react';

/**
 * The browser's way back (on a phone a gesture) closes what lies over the sheet and does not leave the page. What is closed
 * otherwise takes its step out of the history again.
 */
export function useBackCloses(close: () => void): void {
  const latest = useRef(close);
  latest.current = close;
  useEffect(() => {
    const before = location.href;
    let wentBack = false;
    history.pushState({ over: true }, '');
    const back = (): void => {
      wentBack = true;
      latest.current();
    };
    addEventListener('popstate', back);
    return () => {
      removeEventListener('popstate', back);
      // Elsewhere by now: that step is not ours to take back.
      if (!wentBack && location.href === before) history.back();
    };
  }, []);
}
