import { useMemo, useSyncExternalStore } from 'react';
import { type Route, routeOf } from './state/index.ts';

const kinds = ['popstate', 'hashchange'] as const;

/**
 * The page that the address names now; goes with the browser's own way back and forth. `popstate` comes with the change
 * itself, `hashchange` is only put in line (HTML, "update document for history step application"): on a busy machine a key
 * that was pressed after it is delivered before, to a page that nobody wants any more, and is lost.
 */
export function useRoute(): Route {
  const hash = useSyncExternalStore(
    (changed) => {
      for (const kind of kinds) addEventListener(kind, changed);
      return () => {
        for (const kind of kinds) removeEventListener(kind, changed);
      };
    },
    () => location.hash,
  );
  return useMemo(() => routeOf(hash), [hash]);
}
