import type { ReactNode } from 'react';
import type { ActEntry, ToldAct } from '../../contract/index.ts';
import { actPhrase, jobLabels } from '../../words/index.ts';
import { clockTime, dayTick } from '../set/clock.ts';
import { whoseAct } from './whose-act.ts';

interface ActsDoneProps {
  readonly acts: readonly ActEntry[];
  readonly told: readonly ToldAct[];
  readonly undo: (act: ActEntry) => void;
}

/** As many as somebody looks through for what happened just now. */
const shownMax = 40;

interface Line {
  readonly key: string;
  readonly atMs: number;
  readonly by: string;
  readonly what: string;
  /** Null for what is not taken back from here. */
  readonly act: ActEntry | null;
}

/** Who did what and said what, the newest first: two people at work want to know whose hand it was. */
export function ActsDone({ acts, told, undo }: ActsDoneProps): ReactNode {
  if (acts.length === 0 && told.length === 0) return null;
  return (
    <details className="acts-done">
      <summary>{jobLabels.actsDone}</summary>
      <ol>
        {linesOf(acts, told).map(({ key, atMs, by, what, act }) => (
          <li key={key}>
            <span>
              {momentOf(atMs)} {by}: {what}
            </span>{' '}
            {act === null ? null : (
              <button type="button" onClick={() => undo(act)}>
                {jobLabels.undoShort}
                <span className="unseen">: {what}</span>
              </button>
            )}
          </li>
        ))}
      </ol>
    </details>
  );
}

function linesOf(acts: readonly ActEntry[], told: readonly ToldAct[]): Line[] {
  const done = acts.map((act): Line => {
    const by = whoseAct(act) || jobLabels.onThisScreen;
    return { key: act.id, atMs: Date.parse(act.at), by, what: actPhrase(act.what), act };
  });
  const earlier = told.map(({ at, by, what, takenBack }, index): Line => {
    // Two may be of one moment.
    return {
      key: `${at} ${told.length - index}`,
      atMs: Date.parse(at),
      by: nameOf(by),
      what: takenBack === null ? actPhrase(what) : `${actPhrase(what)} (${thenTakenBack(takenBack)})`,
      act: null,
    };
  });
  return [...done, ...earlier].sort((one, other) => other.atMs - one.atMs).slice(0, shownMax);
}

function nameOf(by: string): string {
  return by === 'operator' ? jobLabels.theOperator : by;
}

function thenTakenBack({ at, by }: NonNullable<ToldAct['takenBack']>): string {
  return jobLabels.takenBackThen(momentOf(Date.parse(at)), nameOf(by));
}

/** What was done on another day says which. */
function momentOf(atMs: number): string {
  const isToday = new Date(atMs).toDateString() === new Date().toDateString();
  return isToday ? clockTime(atMs) : dayTick(atMs);
}
