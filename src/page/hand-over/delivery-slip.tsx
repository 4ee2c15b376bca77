import { type ReactNode, useEffect, useState } from 'react';
import type { Delivery, DeliveryState } from '../../contract/index.ts';
import { handOverLabels as labels, sentence } from '../../words/index.ts';
import { changeDelivery, fetchDelivery } from '../link/index.ts';
import { dayAndTime } from '../set/clock.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { DeliveredFiles } from './delivered-files.tsx';
import { ProgressLine } from './progress-line.tsx';
import { SpecificationValues } from './specification-values.tsx';
import { useAsked } from './use-asked.ts';

/** One delivery as an order slip: what was ordered, how far it is, where the files are, what is to be said of them. */
export function DeliverySlip({ state: delivery }: { readonly state: DeliveryState }): ReactNode {
  const { title, job, state, frames, filesMade, filesMissing, finding, folder } = delivery;
  const { busy, refusal, ask } = useAsked();
  const headingId = `slip-${delivery.id}`;
  const isOver = state === 'done' || state === 'aborted';
  const outcome = state === 'done' && filesMissing > 0 ? labels.doneWithGaps : labels.states[state];
  return (
    <li className="hand-slip" data-state={state}>
      <article aria-labelledby={headingId}>
        <header>
          <h3 id={headingId}>
            {title} <small>{job}</small>
          </h3>
          <p className="hand-outcome" role="status">
            <VerdictShape judgement={judgementOf(delivery)} />
            {outcome}
          </p>
        </header>
        <ProgressLine
          name={`${labels.made(filesMade, frames)}${labels.about(title)}`}
          done={filesMade + filesMissing}
          of={frames}
          words={`${labels.made(filesMade, frames)}${filesMissing === 0 ? '' : `, ${labels.notMade(filesMissing)}`}`}
        />
        <Sent delivery={delivery} />
        {finding === null ? null : <p className="hand-said">{sentence(finding)}</p>}
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
          {state === 'running' ? (
            <button
              type="button"
              className="press"
              disabled={busy}
              onClick={() => ask(() => changeDelivery(delivery.id, 'paused'))}
            >
              {labels.pause}
              <span className="unseen">{labels.about(title)}</span>
            </button>
          ) : null}
          {state === 'paused' ? (
            <button
              type="button"
              className="press"
              disabled={busy}
              onClick={() => ask(() => changeDelivery(delivery.id, 'running'))}
            >
              {labels.goOn}
              <span className="unseen">{labels.about(title)}</span>
            </button>
          ) : null}
          {isOver ? null : (
            <EndIt
              title={title}
              busy={busy}
              onEnd={() => ask(() => changeDelivery(delivery.id, 'aborted'))}
            />
          )}
        </p>
        <p role="status" className="hand-refusal" hidden={refusal === ''}>
          {refusal}
        </p>
        <SlipDetails delivery={delivery} />
      </article>
    </li>
  );
}

/** How far its files are at the place they are sent to; nothing where they stay here. */
function Sent({ delivery }: { readonly delivery: DeliveryState }): ReactNode {
  const { destination, filesSent, filesMade, bytesSent, bytesToSend } = delivery;
  if (destination === null) return null;
  return (
    <>
      <p>
        {labels.destination} <strong>{destination}</strong>
      </p>
      <ProgressLine
        name={`${labels.destination} ${destination}`}
        done={bytesSent}
        of={bytesToSend}
        words={labels.sent(filesSent, filesMade)}
      />
    </>
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
      <button type="button" className="press" disabled={busy} onClick={() => setAsked(true)}>
        {labels.end}
        <span className="unseen">{labels.about(title)}</span>
      </button>
    );
  return (
    <span className="hand-sure">
      {labels.endSure}{' '}
      <button type="button" className="press" disabled={busy} onClick={onEnd}>
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
  const { id, filesMade, filesMissing, state, title } = delivery;
  // biome-ignore lint/correctness/useExhaustiveDependencies: each file that was made is a reason to ask again
  useEffect(() => {
    if (!open) return;
    const ended = new AbortController();
    fetchDelivery(id, ended.signal).then(setWhole, () => {});
    return () => ended.abort();
  }, [open, id, filesMade, filesMissing, state]);
  return (
    <details className="hand-details" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {labels.everyValue}. {labels.whatIsThere}
        <span className="unseen">{labels.about(title)}</span>
      </summary>
      {whole === null ? null : (
        <>
          <SpecificationValues said={whole.specification} />
          <DeliveredFiles delivery={whole} />
        </>
      )}
    </details>
  );
}

function judgementOf({ state, filesMissing }: DeliveryState): 'good' | 'doubt' | 'bad' | 'unknown' {
  if (state === 'done') return filesMissing === 0 ? 'good' : 'doubt';
  return state === 'running' ? 'unknown' : state === 'paused' ? 'doubt' : 'bad';
}

function timesOf({ startedAt, endedAt }: DeliveryState): string {
  const began = labels.begun(dayAndTime(Date.parse(startedAt)));
  return endedAt === null ? began : `${began}, ${labels.ended(dayAndTime(Date.parse(endedAt)))}`;
}
