import { useCallback, useEffect, useRef, useState } from 'react';
import { type Look, lookHash } from '../../../look/index.ts';
import { tryLook } from '../../link/index.ts';

export type Try =
  | { readonly state: 'none' }
  | { readonly state: 'rendering' }
  | { readonly state: 'failed' }
  /** By whoever works here; until the look, the frame or the size is another. */
  | { readonly state: 'called-off' }
  /** `address` of the rendering; of this look and no other. */
  | { readonly state: 'here'; readonly address: string };

export interface Tried {
  readonly now: Try;
  /** Ends the station's work on it. */
  readonly callOff: () => void;
  readonly again: () => void;
}

/** The knob has come to rest. */
const restMs = 350;

/** The station's own rendering of a look that is not saved, while `wanted`: as soon as the knob rests. */
export function useTry(
  frame: string,
  look: Look,
  side: 'now' | 'before',
  widthPx: number | null,
  wanted: boolean,
): Tried {
  const running = useRef<AbortController | null>(null);
  const [tries, setTries] = useState(0);
  const [held, setHeld] = useState<{ readonly of: string; readonly outcome: Try } | null>(null);
  const of = wanted ? `${frame} ${widthPx} ${lookHash(look)}` : '';
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key holds all that decides
  useEffect(() => {
    if (!wanted || widthPx === null) return;
    const gone = new AbortController();
    running.current = gone;
    let address: string | null = null;
    const timer = setTimeout(() => {
      setHeld({ of, outcome: { state: 'rendering' } });
      tryLook(frame, widthPx, look, side, gone.signal).then(
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
  }, [of, tries]);
  const callOff = useCallback(() => {
    running.current?.abort();
    setHeld({ of, outcome: { state: 'called-off' } });
  }, [of]);
  const again = useCallback(() => {
    setHeld(null);
    setTries((count) => count + 1);
  }, []);
  return { now: held !== null && held.of === of ? held.outcome : { state: 'none' }, callOff, again };
}
