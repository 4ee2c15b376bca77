import { useCallback, useRef, useState } from 'react';
import { handOverLabels } from '../../words/index.ts';
import { wordsOf } from '../link/index.ts';

/**
 * One wish at a time: whether it is under way, and why the last was not taken; empty where it was. What is asked for meanwhile is
 * left, so that a button need only look as if it could not be pressed (`aria-disabled`): one that is `disabled` loses the focus, and
 * who goes on by keyboard begins again at the top of the page.
 */
export function useAsked(): {
  readonly busy: boolean;
  readonly refusal: string;
  readonly ask: (call: () => Promise<unknown>) => void;
} {
  const [busy, setBusy] = useState(false);
  const [refusal, setRefusal] = useState('');
  const isUnderWay = useRef(false);
  const ask = useCallback((call: () => Promise<unknown>) => {
    if (isUnderWay.current) return;
    isUnderWay.current = true;
    setBusy(true);
    call()
      .then(
        () => setRefusal(''),
        (thrown: unknown) => setRefusal(wordsOf(thrown, handOverLabels.failed)),
      )
      .finally(() => {
        isUnderWay.current = false;
        setBusy(false);
      });
  }, []);
  return { busy, refusal, ask };
}
