import { useEffect, useState } from 'react';
import { type Look, lookHash } from '../../../look/index.ts';
import { tryLook } from '../../link/index.ts';

export type Try =
  | { readonly state: 'none' }
  | { readonly state: 'rendering' }
  | { readonly state: 'failed' }
  /** `address` of the rendering; of this look and no other. */
  | { readonly state: 'here'; readonly address: string };

/** The knob has come to rest. */
const restMs = 350;

/** The station's own rendering of a look that is not saved, while `wanted`: as soon as the knob rests. */
export function useTry(frame: string, look: Look, widthPx: number | null, wanted: boolean): Try {
  const [held, setHeld] = useState<{ readonly of: string; readonly outcome: Try } | null>(null);
  const of = wanted ? `${frame} ${widthPx} ${lookHash(look)}` : '';
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key holds all that decides
  useEffect(() => {
    if (!wanted || widthPx === null) return;
    const gone = new AbortController();
    let address: string | null = null;
    const timer = setTimeout(() => {
      setHeld({ of, outcome: { state: 'rendering' } });
      tryLook(frame, widthPx, look, gone.signal).then(
        (picture) => {
          if (gone.signal.aborted) return;
          address = URL.createObjectURL(picture);
          setHeld({ of, outcome: { state: 'here', address } });
        },
        () => gone.signal.aborted || setHeld({ of, outcome: { state: 'failed' } }),
      );
    }, restMs);
    return () => {
      clearTimeout(timer);
      gone.abort();
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [of]);
  return held !== null && held.of === of ? held.outcome : { state: 'none' };
}
