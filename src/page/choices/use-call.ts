import { useCallback, useState } from 'react';
import { pageLabels } from '../../words/index.ts';
import { isUnknown, wordsOf } from '../link/index.ts';

export interface Call {
  /** Why the last one was not taken; empty where it was. */
  readonly refusal: string;
  /** Makes a call; settles with whether the station took it. */
  readonly run: (call: () => Promise<unknown>) => Promise<boolean>;
  /** What it became is known by now: nothing is to be said of it any more. */
  readonly forget: () => void;
}

/** A call to the station whose refusal is said where it was made; what it changed comes as an event. */
export function useCall(): Call {
  const [refusal, setRefusal] = useState('');
  const run = useCallback(
    (call: () => Promise<unknown>) =>
      call().then(
        () => {
          setRefusal('');
          return true;
        },
        (thrown: unknown) => {
          setRefusal(isUnknown(thrown) ? pageLabels.noAnswer : wordsOf(thrown, pageLabels.notTaken));
          return false;
        },
      ),
    [],
  );
  const forget = useCallback(() => setRefusal(''), []);
  return { refusal, run, forget };
}
