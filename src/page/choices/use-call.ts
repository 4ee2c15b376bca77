import { useCallback, useRef, useState } from 'react';
import { pageLabels } from '../../words/index.ts';
import { isUnknown, wordsOf } from '../link/index.ts';
import { begun, forgotten, noRefusals, type Refusals, refusalWords, refused, taken } from './refusals.ts';

export interface Call {
  /** Why something was not taken; empty where everything was. */
  readonly refusal: string;
  /**
   * Makes a call; settles with whether the station took it. `what` tells apart the calls of a page that makes several kinds: its words
   * lead the refusal, which the same kind alone settles.
   */
  readonly run: (call: () => Promise<unknown>, what?: string) => Promise<boolean>;
  /** What it became is known by now: nothing is to be said of it any more. */
  readonly forget: (what?: string) => void;
}

/** A call to the station whose refusal is said where it was made; what it changed comes as an event. */
export function useCall(): Call {
  const [refusal, setRefusal] = useState('');
  const refusals = useRef<Refusals>(noRefusals);
  const become = useCallback((now: Refusals) => {
    refusals.current = now;
    setRefusal(refusalWords(now));
  }, []);
  const run = useCallback(
    (call: () => Promise<unknown>, what = '') => {
      refusals.current = begun(refusals.current);
      const { moment } = refusals.current;
      return call().then(
        () => {
          become(taken(refusals.current, what, moment));
          return true;
        },
        (thrown: unknown) => {
          const words = isUnknown(thrown) ? pageLabels.noAnswer : wordsOf(thrown, pageLabels.notTaken);
          become(refused(refusals.current, what, words));
          return false;
        },
      );
    },
    [become],
  );
  const forget = useCallback((what = '') => become(forgotten(refusals.current, what)), [become]);
  return { refusal, run, forget };
}
