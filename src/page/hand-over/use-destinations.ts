import { useCallback, useEffect, useState } from 'react';
import type { Destination } from '../../contract/index.ts';
import { fetchDestinations, Refused } from '../link/index.ts';

export interface Destinations {
  /** Null until they came; `elsewhere`: this device may not ask. */
  readonly list: readonly Destination[] | null | 'elsewhere';
  readonly look: () => void;
}

/** The places that deliveries can be sent to, asked for as the page opens and after every change on it. */
export function useDestinations(): Destinations {
  const [list, setList] = useState<Destinations['list']>(null);
  const [asked, setAsked] = useState(0);
  const look = useCallback(() => setAsked((before) => before + 1), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each look is a reason to ask again
  useEffect(() => {
    const ended = new AbortController();
    fetchDestinations(ended.signal).then(setList, (thrown: unknown) => {
      if (thrown instanceof Refused && thrown.code === 'operator-only') setList('elsewhere');
    });
    return () => ended.abort();
  }, [asked]);
  return { list, look };
}
