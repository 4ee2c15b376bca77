import { useCallback, useState } from 'react';
import { pageLabels } from '../../words/index.ts';
import { wordsOf } from '../link/index.ts';

export interface Call {
  /** Why the last one was not taken; empty where it was. */
  readonly refusal: string;
  /** Makes a call; settles with whether the station took it. */
  readonly run: (call: () => Promise<unknown>) => Promise<boolean>;
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
          setRefusal(wordsOf(thrown, pageLabels.notTaken));
          return false;
        },
      ),
    [],
  );
  return { refusal, run };
}
