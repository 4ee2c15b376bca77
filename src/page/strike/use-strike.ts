import { useCallback, useEffect, useRef, useState } from 'react';
import type { Strike } from '../../contract/index.ts';
import { strikeLabels } from '../../words/index.ts';
import { fetchStrike, Refused, wordsOf } from '../link/index.ts';

/** Between two checks, ms: frames that arrive tell of themselves many times a second. */
const restMs = 1000;

export interface StrikeSeen {
  /** The newest check; null while there is none. */
  readonly check: Strike | null;
  /** Why there is none; empty while it is on its way. */
  readonly failed: string;
  /** Why what was said last was not taken; empty where it was. */
  readonly refusal: string;
  /** Says something; what it answers is the check. Settles with whether it was taken. */
  readonly say: (call: () => Promise<Strike | null>) => Promise<boolean>;
}

/** The check of a job, made anew whenever something changes that it may speak of (`seen`). */
export function useStrike(job: string | null, seen: readonly unknown[]): StrikeSeen {
  const [check, setCheck] = useState<Strike | null>(null);
  const [failed, setFailed] = useState('');
  const [refusal, setRefusal] = useState('');
  const asked = useRef({ atMs: 0, tookMs: 0, number: 0 });
  const load = useCallback(
    async (signal: AbortSignal) => {
      const number = ++asked.current.number;
      const began = Date.now();
      asked.current.atMs = began;
      try {
        const found = await fetchStrike(job, signal);
        asked.current.tookMs = Date.now() - began;
        // What was said meanwhile answered with a newer one.
        if (number !== asked.current.number) return;
        setCheck(found);
        setFailed('');
      } catch (thrown) {
        if (signal.aborted || number !== asked.current.number) return;
        const none = thrown instanceof Refused && thrown.code === 'not-found';
        if (none) setCheck(null);
        setFailed(none ? strikeLabels.noJob : wordsOf(thrown, strikeLabels.failed));
      }
    },
    [job],
  );
  const say = useCallback(
    async (call: () => Promise<Strike | null>) => {
      try {
        const answer = await call();
        setRefusal('');
        const number = ++asked.current.number;
        const now = answer ?? (await fetchStrike(job, new AbortController().signal));
        if (number === asked.current.number) setCheck(now);
        return true;
      } catch (thrown) {
        setRefusal(wordsOf(thrown, strikeLabels.notSaid));
        return false;
      }
    },
    [job],
  );
  useEffect(() => {
    const ended = new AbortController();
    const { atMs, tookMs } = asked.current;
    const wait = Math.max(0, atMs + Math.max(restMs, 3 * tookMs) - Date.now());
    const timer = setTimeout(() => void load(ended.signal), wait);
    return () => {
      clearTimeout(timer);
      ended.abort();
    };
  }, [load, ...seen]);
  return { check, failed, refusal, say };
}
