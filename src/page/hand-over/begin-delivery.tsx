import { type ReactNode, useEffect, useId, useState } from 'react';
import type { Job, NewDelivery, SpecificationList } from '../../contract/index.ts';
import { type Mark, marks } from '../../facts/index.ts';
import { handOverLabels as labels, markNames } from '../../words/index.ts';
import { beginDelivery, fetchSpecifications } from '../link/index.ts';
import type { FrameList } from '../state/index.ts';
import { anyMarked } from './any-marked.ts';
import { PlanSaid } from './plan-said.tsx';
import { SpecificationValues } from './specification-values.tsx';
import { useAsked } from './use-asked.ts';
import { usePlan } from './use-plan.ts';

type Known = SpecificationList['specifications'][number];

interface BeginProps {
  readonly jobs: readonly Job[];
  /** The one that the page is about; null: one is chosen. */
  readonly job: string | null;
  /** What is planned hangs on their marks and pictures. */
  readonly frames: FrameList;
  /** Whether those are all. */
  readonly allFrames: boolean;
  /** Names of the places that files can be sent to. */
  readonly destinations: readonly string[];
}

/** A new delivery: what, of which frames, and what would come of it, before it is begun. */
export function BeginDelivery({ jobs, job: fixed, frames, allFrames, destinations }: BeginProps): ReactNode {
  const known = useOnce(fetchSpecifications);
  const [chosenJob, setChosenJob] = useState<string | null>(null);
  const [name, setName] = useState<string | null>(null);
  const [chosenPlace, setSendTo] = useState<string | null>(null);
  // One that was forgotten meanwhile is chosen no longer.
  const sendTo = chosenPlace !== null && destinations.includes(chosenPlace) ? chosenPlace : null;
  const [ownMarks, setOwnMarks] = useState<readonly Mark[] | null>(null);
  const { busy, refusal, ask } = useAsked();
  const code = fixed ?? chosenJob ?? jobs[0]?.code ?? null;
  const job = jobs.find((each) => each.code === code);
  const isOrdered = ({ specification }: Known): boolean =>
    job?.deliveries.some((title) => title.toLowerCase() === specification.title.toLowerCase()) ?? false;
  const ordered = [...known.filter(isOrdered), ...known.filter((each) => !isOrdered(each))];
  const chosen = ordered.find((each) => each.name === name) ?? ordered[0];
  const wanted = ownMarks ?? chosen?.specification.marks ?? [];
  // What would be refused is not asked; while frames are still read nobody knows.
  const marked = code !== null && anyMarked(frames, code, wanted);
  const wish: NewDelivery | null =
    code === null || chosen === undefined || !marked
      ? null
      : { job: code, specification: { ...chosen.specification, marks: wanted, ...destinationOf(sendTo) } };
  const planned = usePlan(wish, [frames]);
  const count = planned.plan?.files.length ?? 0;
  if (jobs.length === 0) return <p>{labels.noJob}</p>;
  return (
    <form
      className="hand-begin"
      onSubmit={(event) => {
        event.preventDefault();
        if (wish !== null) ask(() => beginDelivery(wish));
      }}
    >
      {fixed === null ? <JobChoice jobs={jobs} code={code} onChoose={setChosenJob} /> : null}
      <fieldset>
        <legend>{labels.specification}</legend>
        {ordered.map((each) => (
          <label key={each.name} className="hand-choice">
            <input
              type="radio"
              name="specification"
              checked={each === chosen}
              onChange={() => {
                setName(each.name);
                setOwnMarks(null);
              }}
            />
            <span>
              <strong>{each.specification.title}</strong>
              {isOrdered(each) ? <em> {labels.ordered}</em> : null} {each.specification.description}
            </span>
          </label>
        ))}
      </fieldset>
      <fieldset>
        <legend>{labels.marks}</legend>
        <span className="hand-marks">
          {marks.map((mark) => (
            <label key={mark}>
              <input
                type="checkbox"
                checked={wanted.includes(mark)}
                onChange={({ target }) =>
                  setOwnMarks(
                    marks.filter((each) => (each === mark ? target.checked : wanted.includes(each))),
                  )
                }
              />
              {markNames[mark]}
            </label>
          ))}
        </span>
      </fieldset>
      {destinations.length === 0 ? null : (
        <SendTo destinations={destinations} chosen={sendTo} onChoose={setSendTo} />
      )}
      {chosen === undefined ? null : (
        <details className="hand-details">
          <summary>{labels.everyValueOf}</summary>
          <SpecificationValues said={{ ...chosen.specification, marks: wanted, ...destinationOf(sendTo) }} />
        </details>
      )}
      {wanted.length === 0 ? (
        <p>{labels.noMark}</p>
      ) : !marked && allFrames ? (
        <p>{labels.nothingMarked}</p>
      ) : (
        <PlanSaid planned={planned} />
      )}
      <button type="submit" className="press" disabled={busy || count === 0}>
        {labels.deliver(count)}
      </button>
      <p role="status" className="hand-refusal" hidden={refusal === ''}>
        {refusal}
      </p>
    </form>
  );
}

/** What the specification says of it stands where nobody chooses. */
function destinationOf(name: string | null): { readonly destination?: { kind: 'named'; name: string } } {
  return name === null ? {} : { destination: { kind: 'named', name } };
}

interface SendToProps {
  readonly destinations: readonly string[];
  readonly chosen: string | null;
  readonly onChoose: (name: string | null) => void;
}

/** A copy of the files goes to one of the station's destinations; they stay in the job's folder too. */
function SendTo({ destinations, chosen, onChoose }: SendToProps): ReactNode {
  const id = useId();
  return (
    <p className="hand-job">
      <label htmlFor={id}>{labels.sendTo}</label>
      <select
        id={id}
        value={chosen ?? ''}
        onChange={({ target }) => onChoose(target.value === '' ? null : target.value)}
      >
        <option value="">{labels.inJobFolder}</option>
        {destinations.map((name) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </p>
  );
}

interface JobChoiceProps {
  readonly jobs: readonly Job[];
  readonly code: string | null;
  readonly onChoose: (code: string) => void;
}

function JobChoice({ jobs, code, onChoose }: JobChoiceProps): ReactNode {
  const id = useId();
  return (
    <p className="hand-job">
      <label htmlFor={id}>{labels.job}</label>
      <select id={id} value={code ?? ''} onChange={({ target }) => onChoose(target.value)}>
        {jobs.map((job) => (
          <option key={job.code} value={job.code}>
            {job.title === '' ? job.code : `${job.code}, ${job.title}`}
          </option>
        ))}
      </select>
    </p>
  );
}

/** What is asked for once, as the page is opened; empty until it came. */
function useOnce<Item>(fetchList: (signal: AbortSignal) => Promise<readonly Item[]>): readonly Item[] {
  const [known, setKnown] = useState<readonly Item[]>([]);
  useEffect(() => {
    const ended = new AbortController();
    fetchList(ended.signal).then(setKnown, () => {});
    return () => ended.abort();
  }, [fetchList]);
  return known;
}
