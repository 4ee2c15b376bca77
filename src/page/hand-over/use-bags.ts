import { useCallback, useEffect, useState } from 'react';
import type { BagDesk } from '../../contract/index.ts';
import { fetchBags } from '../link/index.ts';

export interface Bags {
  /** Null until it came; `elsewhere`: this device may not ask. */
  readonly desk: BagDesk | null | 'elsewhere';
  readonly look: () => void;
}

/** Where packages may lie: asked for as the page opens, when one ends, when `reason` changes, and on a press; not by the clock, so that a disk may sleep. */
export function useBags(reason: string): Bags {
  const [desk, setDesk] = useState<Bags['desk']>(null);
  const [asked, setAsked] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each look and each reason is the wish itself
  useEffect(() => {
    const ended = new AbortController();
    fetchBags(ended.signal).then(
      (found) => setDesk(found ?? 'elsewhere'),
      () => {},
    );
    return () => ended.abort();
  }, [asked, reason]);
  return { desk, look: useCallback(() => setAsked((count) => count + 1), []) };
}
