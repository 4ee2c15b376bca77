import { useMemo, useSyncExternalStore } from 'react';
import { type Route, routeOf } from './state/index.ts';

/** The page that the address names now; goes with the browser's own way back and forth. */
export function useRoute(): Route {
  const hash = useSyncExternalStore(
    (changed) => {
      addEventListener('hashchange', changed);
      return () => removeEventListener('hashchange', changed);
    },
    () => location.hash,
  );
  return useMemo(() => routeOf(hash), [hash]);
}
