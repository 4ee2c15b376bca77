import { useEffect, useState } from 'react';
import type { Look } from '../../contract/index.ts';
import { fetchEveryLook } from '../link/index.ts';

/** Every version that is kept; null while they are not here. `seen` rises when they may have changed. */
export function useEveryLook(seen: number): readonly Look[] | null {
  const [looks, setLooks] = useState<readonly Look[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when it rises, whatever it is
  useEffect(() => {
    const gone = new AbortController();
    // What does not come now comes with the next event; what is chosen is shown by its name meanwhile.
    fetchEveryLook(gone.signal).then(setLooks, () => undefined);
    return () => gone.abort();
  }, [seen]);
  return looks;
}
