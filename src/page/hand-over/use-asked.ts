import { useCallback, useState } from 'react';
import { handOverLabels } from '../../words/index.ts';
import { wordsOf } from '../link/index.ts';

/** One wish at a time: whether it is under way, and why the last was not taken; empty where it was. */
export function useAsked(): {
  readonly busy: boolean;
  readonly refusal: string;
  readonly ask: (call: () => Promise<unknown>) => void;
} {
  const [busy, setBusy] = useState(false);
  const [refusal, setRefusal] = useState('');
  const ask = useCallback((call: () => Promise<unknown>) => {
    setBusy(true);
    call()
      .then(
        () => setRefusal(''),
        (thrown: unknown) => setRefusal(wordsOf(thrown, handOverLabels.failed)),
      )
      .finally(() => setBusy(false));
  }, []);
  return { busy, refusal, ask };
}
