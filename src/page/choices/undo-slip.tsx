import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { ActEntry } from '../../contract/index.ts';
import { actPhrase, jobLabels, sentence } from '../../words/index.ts';

interface UndoSlipProps {
  /** The newest first; null while they are not known. */
  readonly acts: readonly ActEntry[] | null;
  readonly undo: () => void;
  /** Why the last undo was not taken. */
  readonly refusal: string;
}

/** So long a slip lies there: time to look up, read it and reach for the key. */
const shownMs = 20_000;

/** What was done last, with the way back, for as long as one may want it; the key works at any time. */
export function UndoSlip({ acts, undo, refusal }: UndoSlipProps): ReactNode {
  const newest = acts?.[0] ?? null;
  const [fresh, putAway] = useNewAct(acts === null ? undefined : (newest?.at ?? ''));
  if (refusal !== '')
    return (
      <div className="undo-place">
        <p className="undo-slip paper" role="status">
          <span>{refusal}</span>
        </p>
      </div>
    );
  if (newest === null || !fresh) return null;
  return (
    <div className="undo-place">
      <p className="undo-slip paper" role="status">
        {isSeen(newest) ? <span>{sentence(newest.what)}</span> : null}
        <button type="button" className="undo-act" onClick={undo}>
          {isSeen(newest) ? jobLabels.undoShort : jobLabels.undo(actPhrase(newest.what))}
        </button>
        <button type="button" onClick={putAway}>
          {jobLabels.keepIt}
        </button>
      </p>
    </div>
  );
}

/** Done by what was held into a picture: whoever held it wants to read first that it was seen. */
function isSeen({ what }: ActEntry): boolean {
  return what.code.startsWith('slate.');
}

/**
 * Whether an act came after the page was opened and is fresh: one that is newer than any before it, so what an undo brings to
 * light again is old news. `at` is its moment, empty where there is no act, undefined while nobody knows.
 */
function useNewAct(at: string | undefined): [boolean, () => void] {
  const latest = useRef<string | null>(null);
  const [fresh, setFresh] = useState(false);
  useEffect(() => {
    if (at === undefined) return;
    const before = latest.current;
    latest.current = before === null || at > before ? at : before;
    const isNew = before !== null && at > before;
    setFresh(isNew);
    if (!isNew) return;
    const timer = setTimeout(() => setFresh(false), shownMs);
    return () => clearTimeout(timer);
  }, [at]);
  return [fresh, () => setFresh(false)];
}
