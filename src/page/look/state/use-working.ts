import { type Dispatch, type SetStateAction, useEffect, useMemo, useState } from 'react';
import type { Hand } from '../instruments/hand.ts';
import { type Base, plainBase } from './base.ts';
import { letGo, type Step, stepBack, stepForth, turned } from './look-history.ts';
import { withNumber, withParts } from './look-number.ts';
import { beginWork, changesSince, opened, openedInForce, savedAs, type Working } from './working.ts';
import { workingOf, workingText } from './working-text.ts';

const place = 'setside.look';

export interface Work {
  readonly working: Working;
  readonly hand: Hand;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly open: (base: Base) => void;
  /** The same, unless `asked` is not what stands there any more; it is noted that this look in force was honoured. */
  readonly openInForce: (base: Base, asked: Step) => void;
  readonly saved: (base: Base) => void;
  /** Whether somebody has turned anything in this session that is not saved. */
  readonly isTouched: boolean;
}

/** The look that is worked on, kept for as long as the browser's tab is open. */
export function useWorking(): Work {
  const [working, setWorking] = useState<Working>(() => kept() ?? beginWork(plainBase));
  const { turning } = working.history;
  useEffect(() => {
    if (turning === null) keep(working);
  }, [working, turning]);
  const calls = useMemo(() => callsOf(setWorking), []);
  const { present } = working.history;
  const { look } = present;
  const hand = useMemo(() => ({ look, ...calls.hand }), [look, calls]);
  return { working, hand, ...calls.work, isTouched: changesSince(present) > 0 };
}

function callsOf(set: Dispatch<SetStateAction<Working>>): {
  readonly hand: Omit<Hand, 'look'>;
  readonly work: Pick<Work, 'undo' | 'redo' | 'open' | 'openInForce' | 'saved'>;
} {
  const withHistory =
    (change: (history: Working['history']) => Working['history']) =>
    (working: Working): Working => ({ ...working, history: change(working.history) });
  return {
    hand: {
      turn: (number, value) =>
        set(
          withHistory((history) =>
            turned(
              history,
              withNumber(history.present.look, number, value),
              `${number.name} ${number.at ?? ''}`,
            ),
          ),
        ),
      change: (parts, turn) =>
        set(withHistory((history) => turned(history, withParts(history.present.look, parts), turn ?? null))),
      letGo: () => set(withHistory(letGo)),
    },
    work: {
      undo: () => set(withHistory(stepBack)),
      redo: () => set(withHistory(stepForth)),
      open: (base) => set((working) => opened(working, base)),
      openInForce: (base, asked) => set((working) => openedInForce(working, base, asked)),
      saved: (base) => set((working) => savedAs(working, base)),
    },
  };
}

function kept(): Working | null {
  try {
    return workingOf(sessionStorage.getItem(place));
  } catch {
    return null;
  }
}

/**
 * For a reload. The page itself forgets nothing; a browser whose store is full (five million characters or so, some
 * thousands of steps) is given the newer half of the way, and after a reload undo ends there. All of it is written at
 * each step that has come to rest.
 */
function keep(working: Working): void {
  let { past } = working.history;
  for (;;) {
    try {
      sessionStorage.setItem(place, workingText({ ...working, history: { ...working.history, past } }));
      return;
    } catch {
      if (past.length === 0) return;
      past = past.slice(Math.ceil(past.length / 2));
    }
  }
}
