import { useEffect, useMemo, useReducer } from 'react';
import type { Letter, Shelf } from './letters.ts';
import { Outbox, type Outgoing } from './outbox.ts';
import { post } from './post.ts';

export interface OutboxOfPage {
  readonly letters: readonly Outgoing[];
  readonly put: (letter: Letter) => void;
  readonly tryAgain: (id: string) => void;
  readonly throwAway: (id: string) => void;
}

/**
 * What is said on this page and may not have reached the station yet. `isLive`: whether it answers now; `known`: ids of what
 * it has told of.
 */
export function useOutbox(job: string | null, isLive: boolean, known: ReadonlySet<string>): OutboxOfPage {
  const [, redraw] = useReducer((count: number) => count + 1, 0);
  const outbox = useMemo(
    () => (job === null ? null : new Outbox({ shelf: localShelf, job, send: post, onChange: redraw })),
    [job],
  );
  useEffect(() => () => outbox?.close(), [outbox]);
  useEffect(() => {
    if (isLive) outbox?.nudge();
  }, [isLive, outbox]);
  // After every change of either: the answer to what was sent may come after the event that tells of it.
  useEffect(() => outbox?.heard(known));
  useEffect(() => {
    const nudge = (): void => outbox?.nudge();
    addEventListener('online', nudge);
    return () => removeEventListener('online', nudge);
  }, [outbox]);
  return {
    letters: outbox?.letters() ?? [],
    put: (letter) => outbox?.put(letter),
    tryAgain: (id) => outbox?.tryAgain(id),
    throwAway: (id) => outbox?.throwAway(id),
  };
}

/** Asked for late: a browser may forbid it. */
const localShelf: Shelf = {
  getItem: (key) => localStorage.getItem(key),
  setItem: (key, value) => localStorage.setItem(key, value),
};
