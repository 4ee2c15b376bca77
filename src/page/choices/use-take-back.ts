import { useCallback, useEffect, useState } from 'react';
import type { ActEntry } from '../../contract/index.ts';
import { actPhrase, jobLabels } from '../../words/index.ts';
import { putBackAct, undoAct } from '../link/index.ts';
import { useCall } from './use-call.ts';
import { whoseAct } from './whose-act.ts';

/** What was taken back, or put back, a moment ago. */
export interface TakenBack {
  readonly act: ActEntry;
  readonly how: 'taken-back' | 'put-back';
}

export interface TakeBack {
  /** Takes an act back, the newest where none is named. */
  readonly undo: (act?: ActEntry) => void;
  /** Does again what was taken back last. */
  readonly putBack: () => void;
  /** Null where nothing was, or where it is told long enough. */
  readonly last: TakenBack | null;
  readonly putAway: () => void;
  /** It takes a while: an act on thousands of frames. */
  readonly working: boolean;
  /** Why the last one was not taken; empty where it was. */
  readonly refusal: string;
}

/** What takes longer than this is said. */
const quickMs = 400;

/** So long a slip lies there: time to look up, read it and reach for the key. */
export const slipShownMs = 20_000;

/** The way back, and the way back from that: whoever presses a key wants to read what it did. */
export function useTakeBack(): TakeBack {
  const { refusal, run } = useCall();
  const [last, setLast] = useState<TakenBack | null>(null);
  const [working, setWorking] = useState(false);
  useEffect(() => {
    if (last === null) return;
    const timer = setTimeout(() => setLast(null), slipShownMs);
    return () => clearTimeout(timer);
  }, [last]);
  const make = useCallback(
    (how: TakenBack['how'], call: () => Promise<ActEntry>) =>
      void run(async () => {
        setLast(null);
        const slow = setTimeout(() => setWorking(true), quickMs);
        try {
          setLast({ how, act: await call() });
        } finally {
          clearTimeout(slow);
          setWorking(false);
        }
      }),
    [run],
  );
  const undo = useCallback((act?: ActEntry) => make('taken-back', () => undoAct(act?.id)), [make]);
  const putBack = useCallback(() => make('put-back', putBackAct), [make]);
  const putAway = useCallback(() => setLast(null), []);
  return { undo, putBack, last, putAway, working, refusal };
}

/** `Taken back: moved QMST0007 to Jug.` */
export function takenBackWords({ act, how }: TakenBack): string {
  const what = actPhrase(act.what);
  return how === 'taken-back' ? jobLabels.undone(what, whoseAct(act)) : jobLabels.isPutBack(what);
}
