import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { ActEntry } from '../../contract/index.ts';
import { actPhrase, jobLabels, sentence } from '../../words/index.ts';
import { slipShownMs, type TakeBack, takenBackWords } from './use-take-back.ts';
import { whoseAct } from './whose-act.ts';

interface UndoSlipProps {
  /** The newest first; null while they are not known. */
  readonly acts: readonly ActEntry[] | null;
  readonly takeBack: TakeBack;
  /** Why the last thing was not taken. */
  readonly refusal: string;
}

/**
 * What was done last, with the way back, for as long as one may want it, and what was taken back, with the way back from
 * that; the keys work at any time. The place is always there, so that a screen reader hears what comes into it.
 */
export function UndoSlip({ acts, takeBack, refusal }: UndoSlipProps): ReactNode {
  const { last } = takeBack;
  const newest = acts?.[0] ?? null;
  const [fresh, putAway] = useNewAct(acts === null ? undefined : (newest?.at ?? ''));
  const told = last !== null && (!fresh || newest === null || newest.at <= last.act.at);
  return (
    <div className="undo-place" role="status">
      {takeBack.working ? (
        <p className="undo-slip paper">
          <span>{jobLabels.takingBack}</span>
        </p>
      ) : refusal !== '' ? (
        <p className="undo-slip paper">
          <span>{refusal}</span>
        </p>
      ) : told ? (
        <TakenBackSlip takeBack={takeBack} />
      ) : newest !== null && fresh ? (
        <p className="undo-slip paper">
          {isSeen(newest) ? <span>{sentence(newest.what)}</span> : null}
          <button type="button" className="undo-act" onClick={() => takeBack.undo(newest)}>
            {isSeen(newest) ? jobLabels.undoShort : jobLabels.undo(actPhrase(newest.what), whoseAct(newest))}
          </button>
          <button type="button" onClick={putAway}>
            {jobLabels.keepIt}
          </button>
        </p>
      ) : null}
    </div>
  );
}

function TakenBackSlip({ takeBack: { last, putBack, putAway } }: Pick<UndoSlipProps, 'takeBack'>): ReactNode {
  if (last === null) return null;
  return (
    <p className="undo-slip paper">
      <span>{takenBackWords(last)}</span>
      {last.how === 'taken-back' ? (
        <button type="button" className="undo-act" onClick={putBack}>
          {jobLabels.putBack}
        </button>
      ) : null}
      <button type="button" onClick={putAway}>
        {jobLabels.keepIt}
      </button>
    </p>
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
    const timer = setTimeout(() => setFresh(false), slipShownMs);
    return () => clearTimeout(timer);
  }, [at]);
  return [fresh, () => setFresh(false)];
}
