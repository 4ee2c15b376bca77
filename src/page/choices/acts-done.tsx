import type { ReactNode } from 'react';
import type { ActEntry } from '../../contract/index.ts';
import { actPhrase, jobLabels } from '../../words/index.ts';
import { clockTime } from '../set/clock.ts';
import { whoseAct } from './whose-act.ts';

interface ActsDoneProps {
  readonly acts: readonly ActEntry[];
  readonly undo: (act: ActEntry) => void;
}

/** As many as somebody looks through for what happened just now. */
const shownMax = 40;

/** Who did what since the start, the newest first: two people at work want to know whose hand it was. */
export function ActsDone({ acts, undo }: ActsDoneProps): ReactNode {
  if (acts.length === 0) return null;
  return (
    <details className="acts-done">
      <summary>{jobLabels.actsDone}</summary>
      <ol>
        {acts.slice(0, shownMax).map((act) => (
          <li key={act.id}>
            <span>
              {clockTime(Date.parse(act.at))} {whoseAct(act) || jobLabels.onThisScreen}: {actPhrase(act.what)}
            </span>{' '}
            <button type="button" onClick={() => undo(act)}>
              {jobLabels.undoShort}
              <span className="unseen">: {actPhrase(act.what)}</span>
            </button>
          </li>
        ))}
      </ol>
    </details>
  );
}
