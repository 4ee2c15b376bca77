import { type ReactNode, useEffect, useState } from 'react';
import type { Delivery, DeliveryChange, DeliveryState } from '../../contract/index.ts';
import { destinationLabels, handOverLabels as labels, sentence } from '../../words/index.ts';
import { changeDelivery, fetchDelivery } from '../link/index.ts';
import { dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { DeliveredFiles } from './delivered-files.tsx';
import { DeliverySent, isSending, NotSent, notSentCount } from './delivery-sent.tsx';
import { slipHeadingOf } from './headings.ts';
import { ProgressLine } from './progress-line.tsx';
import { SpecificationValues } from './specification-values.tsx';
import { useAsked } from './use-asked.ts';

/** One delivery as an order slip: what was ordered, how far it is, where the files are, what is to be said of them. */
export function DeliverySlip({ state: delivery }: { readonly state: DeliveryState }): ReactNode {
  const { title, job, state, frames, filesMade, filesMissing, gapsLeft, finding, folder } = delivery;
  const { busy, refusal, ask } = useAsked();
  const headingId = slipHeadingOf(delivery.id);
  const onChange = (change: DeliveryChange): void => ask(() => changeDelivery(delivery.id, change));
  const acts = { title, busy, onChange };
  // What is made is said; a bar is for what goes on, one at a time.
  const isMade = filesMade + filesMissing >= frames || state === 'aborted';
  const madeWords = `${labels.made(filesMade, frames)}${filesMissing === 0 ? '' : `, ${labels.notMade(filesMissing)}`}`;
  const isOver = state === 'done' || state === 'aborted';
  const notSent = notSentCount(delivery);
  return (
    <li className="hand-slip" data-state={state}>
      <article aria-labelledby={headingId}>
        <header>
          <h3 id={headingId} tabIndex={-1}>
            {title} <small>{job}</small>
          </h3>
          <p className="hand-outcome" role="status">
            <VerdictShape judgement={judgementOf(delivery)} />
            {outcomeOf(delivery)}
          </p>
        </header>
        {isMade ? (
          <p>{madeWords}</p>
        ) : (
          <ProgressLine
            name={`${labels.made(filesMade, frames)}${labels.about(title)}`}
            done={filesMade + filesMissing}
            of={frames}
            words={madeWords}
          />
        )}
        <DeliverySent delivery={delivery} />
        {finding === null ? null : (
          <p className="hand-said">
            {sentence(finding)}
            {state === 'running' ? ` ${destinationLabels.triesAgain}` : ''}
          </p>
        )}
        <dl className="hand-facts">
          <div>
            <dt>{labels.folder}</dt>
            <dd>{folder}</dd>
          </div>
          <div>
            <dt>{labels.manifest}</dt>
            <dd>{state === 'done' ? labels.manifestFiles : labels.manifestLater}</dd>
          </div>
        </dl>
        <p className="hand-soft">{timesOf(delivery)}</p>
        <p className="hand-acts">
          {isOver ? null : (
            <Act
              words={state === 'running' ? labels.pause : labels.goOn}
              change={{ state: state === 'running' ? 'paused' : 'running' }}
              {...acts}
            />
          )}
          {notSent === 0 ? null : (
            <Act words={destinationLabels.sendAgain} change={{ state: 'running' }} {...acts} />
          )}
          {state === 'done' && filesMissing > 0 ? (
            <Act
              words={gapsLeft ? labels.askAgain : labels.leaveGaps}
              change={{ gapsLeft: !gapsLeft }}
              {...acts}
            />
          ) : null}
          {isOver ? null : <EndIt title={title} busy={busy} onEnd={() => onChange({ state: 'aborted' })} />}
        </p>
        <p role="status" className="hand-refusal" hidden={refusal === ''}>
          {refusal}
        </p>
        <SlipDetails delivery={delivery} />
      </article>
    </li>
  );
}

interface ActProps {
  readonly words: string;
  readonly title: string;
  readonly busy: boolean;
  readonly change: DeliveryChange;
  readonly onChange: (change: DeliveryChange) => void;
}

/** What can be done about a delivery, in one press. */
function Act({ words, title, busy, change, onChange }: ActProps): ReactNode {
  return (
    <button type="button" className="press" aria-disabled={busy} onClick={() => onChange(change)}>
      {words}
      <span className="unseen">{labels.about(title)}</span>
    </button>
  );
}

interface EndItProps {
  readonly title: string;
  readonly busy: boolean;
  readonly onEnd: () => void;
}

/** What is ended does not go on: it is asked once more. */
function EndIt({ title, busy, onEnd }: EndItProps): ReactNode {
  const [asked, setAsked] = useState(false);
  if (!asked)
    return (
      <button type="button" className="press" aria-disabled={busy} onClick={() => setAsked(true)}>
        {labels.end}
        <span className="unseen">{labels.about(title)}</span>
      </button>
    );
  return (
    <span className="hand-sure">
      {labels.endSure}{' '}
      <button type="button" className="press" aria-disabled={busy} onClick={onEnd}>
        {labels.end}
      </button>{' '}
      <button type="button" className="press" onClick={() => setAsked(false)}>
        {labels.keepIt}
      </button>
    </span>
  );
}

function SlipDetails({ delivery }: { readonly delivery: DeliveryState }): ReactNode {
  const [open, setOpen] = useState(false);
  const [whole, setWhole] = useState<Delivery | null>(null);
  const { id, filesMade, filesMissing, filesSent, state, title } = delivery;
  // biome-ignore lint/correctness/useExhaustiveDependencies: each file that was made or sent is a reason to ask again
  useEffect(() => {
    if (!open) return;
    const ended = new AbortController();
    fetchDelivery(id, ended.signal).then(setWhole, () => {});
    return () => ended.abort();
  }, [open, id, filesMade, filesMissing, filesSent, state]);
  return (
    <details className="hand-details" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {labels.everyValue}
        <span className="unseen">{labels.about(title)}</span>
      </summary>
      {whole === null ? null : (
        <>
          <SpecificationValues said={whole.specification} />
          <NotSent notSent={whole.notSent} />
          <DeliveredFiles delivery={whole} />
        </>
      )}
    </details>
  );
}

function judgementOf(delivery: DeliveryState): 'good' | 'doubt' | 'bad' | 'unknown' {
  const { state, filesMissing, gapsLeft } = delivery;
  if (state === 'done')
    return (filesMissing === 0 || gapsLeft) && notSentCount(delivery) === 0 ? 'good' : 'doubt';
  return state === 'running' ? 'unknown' : state === 'paused' ? 'doubt' : 'bad';
}

function outcomeOf(delivery: DeliveryState): string {
  const { state, filesMissing, gapsLeft } = delivery;
  if (state === 'done' && filesMissing > 0) return gapsLeft ? labels.gapsLeft : labels.doneWithGaps;
  if (isSending(delivery)) return destinationLabels.beingSent;
  return notSentCount(delivery) > 0 ? destinationLabels.doneNotSent : labels.states[state];
}

function timesOf({ startedAt, endedAt }: DeliveryState): string {
  const began = labels.begun(dayAndTime(Date.parse(startedAt)));
  return endedAt === null ? began : `${began}, ${labels.ended(dayAndTime(Date.parse(endedAt)))}`;
}
