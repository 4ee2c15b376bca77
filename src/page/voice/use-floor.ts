import { useEffect, useState } from 'react';

const floor = 'setside.sound.floor';

/**
 * Whether this tab is the one of its browser that is heard. The first that asks has the floor until it is closed or asks no
 * more. Where a browser cannot settle that between tabs (a page that came without encryption), the tab that is seen has it.
 */
export function useFloor(wanted: boolean): boolean {
  const [has, setHas] = useState(false);
  useEffect(() => {
    if (!wanted) return undefined;
    return 'locks' in navigator ? holdFloor(setHas) : followSight(setHas);
  }, [wanted]);
  return wanted && has;
}

function holdFloor(tell: (has: boolean) => void): () => void {
  const over = new AbortController();
  navigator.locks
    .request(floor, { signal: over.signal }, async () => {
      tell(true);
      await new Promise<void>((resolve) => {
        if (over.signal.aborted) resolve();
        else over.signal.addEventListener('abort', () => resolve());
      });
    })
    // Ended while it waited.
    .catch(() => undefined)
    .finally(() => tell(false));
  return () => over.abort();
}

function followSight(tell: (has: boolean) => void): () => void {
  const look = (): void => tell(document.visibilityState === 'visible');
  look();
  document.addEventListener('visibilitychange', look);
  return () => document.removeEventListener('visibilitychange', look);
}
