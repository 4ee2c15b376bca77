import { useCallback, useEffect, useState } from 'react';
import type { LineCheck } from '../../contract/index.ts';
import { fetchLine } from '../link/index.ts';

/** The station looks at its whole computer for an answer: often enough to see a cure work, and no more. */
const lookEveryMs = 15_000;

export interface LineNow {
  readonly check: LineCheck | null;
  readonly looking: boolean;
  readonly failed: boolean;
  readonly look: () => void;
}

/** The line check, read again while somebody looks, when asked, and when `news` is another. */
export function useLine(news: string): LineNow {
  const [check, setCheck] = useState<LineCheck | null>(null);
  const [failed, setFailed] = useState(false);
  const [looking, setLooking] = useState(true);
  const [asked, setAsked] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asking once more, and news, are the wish itself
  useEffect(() => {
    const stop = new AbortController();
    const read = (): void => {
      if (document.visibilityState === 'hidden') return;
      setLooking(true);
      fetchLine(stop.signal).then(
        (line) => {
          setCheck(line);
          setFailed(false);
          setLooking(false);
        },
        () => {
          if (stop.signal.aborted) return;
          setFailed(true);
          setLooking(false);
        },
      );
    };
    read();
    const timer = setInterval(read, lookEveryMs);
    return () => {
      clearInterval(timer);
      stop.abort();
    };
  }, [asked, news]);
  return { check, looking, failed, look: useCallback(() => setAsked((count) => count + 1), []) };
}
