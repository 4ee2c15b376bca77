import { type ReactNode, useEffect, useRef, useState } from 'react';
import { handOverLabels as labels, sentence } from '../../words/index.ts';
import { changeDelivery } from '../link/index.ts';
import { headingOf, slipHeadingOf } from './headings.ts';
import type { NextStep } from './next-steps.ts';
import { useAsked } from './use-asked.ts';

interface NextListProps {
  readonly steps: readonly NextStep[];
  readonly isLost: boolean;
}

interface Left {
  readonly id: string;
  readonly title: string;
}

/** What is to be done next; each line leads to where it is done. A gap that nobody can fill is left as it is, and that can be taken back. */
export function NextList({ steps, isLost }: NextListProps): ReactNode {
  const [left, setLeft] = useState<Left | null>(null);
  const { busy, refusal, ask } = useAsked();
  const undo = useRef<HTMLButtonElement>(null);
  // The line that was pressed is gone: who goes on by keyboard goes on from here.
  useEffect(() => {
    if (left !== null) undo.current?.focus();
  }, [left]);
  const leave = (gone: Left): void =>
    ask(() => changeDelivery(gone.id, { gapsLeft: true }).then(() => setLeft(gone)));
  const takeBack = ({ id }: Left): void =>
    ask(() =>
      changeDelivery(id, { gapsLeft: false }).then(() => {
        setLeft(null);
        document.getElementById(headingOf('next'))?.focus();
      }),
    );
  if (isLost) return <p role="status">{labels.lost}</p>;
  return (
    <>
      {steps.length === 0 ? (
        <p role="status">{labels.nothingNext}</p>
      ) : (
        <ol className="hand-next">
          {steps.map((step) => (
            <li key={`${step.finding.code} ${step.delivery ?? ''} ${JSON.stringify(step.finding.args)}`}>
              <span>
                <button type="button" onClick={() => goTo(step)}>
                  {sentence(step.finding)}
                </button>{' '}
                <LeaveIt step={step} busy={busy} onLeave={leave} />
              </span>
            </li>
          ))}
        </ol>
      )}
      {left === null ? null : (
        <p className="hand-acts" role="status">
          {labels.gapsLeftOf(left.title)}
          <button
            ref={undo}
            type="button"
            className="press"
            aria-disabled={busy}
            onClick={() => takeBack(left)}
          >
            {labels.takeBack}
          </button>
        </p>
      )}
      <p role="status" className="hand-refusal" hidden={refusal === ''}>
        {refusal}
      </p>
    </>
  );
}

interface LeaveItProps {
  readonly step: NextStep;
  readonly busy: boolean;
  readonly onLeave: (left: Left) => void;
}

function LeaveIt({ step: { delivery, mayLeave, finding }, busy, onLeave }: LeaveItProps): ReactNode {
  if (delivery === undefined || mayLeave !== true) return null;
  const title = String(finding.args.title ?? '');
  return (
    <button
      type="button"
      className="hand-leave"
      aria-disabled={busy}
      onClick={() => onLeave({ id: delivery, title })}
    >
      {labels.leaveGaps}
      <span className="unseen">{labels.about(title)}</span>
    </button>
  );
}

/** To its part, or to the slip that it is about, which may lie folded away. */
function goTo({ at, delivery }: NextStep): void {
  const slip = delivery === undefined ? null : document.getElementById(slipHeadingOf(delivery));
  const folded = slip?.closest<HTMLDetailsElement>('.hand-over-ones') ?? null;
  if (folded !== null) folded.open = true;
  (slip ?? document.getElementById(headingOf(at)))?.focus();
}
