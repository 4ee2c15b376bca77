import { type Dispatch, type FormEvent, type ReactNode, useId, useMemo, useState } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { framesPhrase, jobLabels, jobTitle } from '../../words/index.ts';
import { takeFramesIn } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { clockTime } from '../set/clock.ts';
import { SmallPicture } from '../set/small-picture.tsx';
import { addressOf, momentOf, type PageAction, type PageState, trayFrames } from '../state/index.ts';
import { useCall } from './use-call.ts';

interface TrayCardProps {
  readonly state: PageState;
  readonly frames: readonly Frame[];
  readonly dispatch: Dispatch<PageAction>;
}

/** The frames that belong to no job yet, and the way for them into one. */
export function TrayCard({ state, frames, dispatch }: TrayCardProps): ReactNode {
  const tray = useMemo(() => trayFrames(frames), [frames]);
  const jobs = (state.jobs ?? []).filter((job) => job.state !== 'closed');
  const close = (): void => dispatch({ type: 'card-closed', card: 'tray' });
  return (
    <CardDialog title={jobLabels.trayTitle} open={state.card === 'tray'} onClose={close}>
      <div className="choices">
        <p className="aside">{jobLabels.trayHelp}</p>
        {tray.length === 0 ? <p>{jobLabels.trayEmpty}</p> : null}
        {jobs.length === 0 ? (
          <p className="acts">
            <a href={addressOf({ page: 'job', job: null })}>{jobLabels.makeAJob}</a>
          </p>
        ) : null}
        {tray.length === 0 || jobs.length === 0 ? null : <TakeIn tray={tray} jobs={jobs} onDone={close} />}
      </div>
    </CardDialog>
  );
}

interface TakeInProps {
  readonly tray: readonly Frame[];
  readonly jobs: readonly Job[];
  readonly onDone: () => void;
}

/** Small pictures that are drawn at once; older frames are named without theirs. */
const picturesMax = 60;

function TakeIn({ tray, jobs, onDone }: TakeInProps): ReactNode {
  const id = useId();
  const { refusal, run } = useCall();
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [code, setCode] = useState(jobs[0]?.code ?? '');
  const [shot, setShot] = useState('');
  const job = jobs.find((each) => each.code === code) ?? jobs[0];
  const chosen = tray.filter((frame) => !left.has(frame.id));
  const take = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (job === undefined) return;
    const known = job.shots.some((each) => each.id === shot);
    const frames = chosen.map((frame) => frame.id);
    if (await run(() => takeFramesIn(job.code, frames, known ? shot : null))) onDone();
  };
  const toggle = (frame: string): void =>
    setLeft((before) => {
      const after = new Set(before);
      if (!after.delete(frame)) after.add(frame);
      return after;
    });
  return (
    <form className="take-in" onSubmit={take}>
      <div className="choice">
        <label htmlFor={`${id}-job`}>{jobLabels.intoJob}</label>
        <select id={`${id}-job`} value={job?.code ?? ''} onChange={(event) => setCode(event.target.value)}>
          {jobs.map((each) => (
            <option key={each.code} value={each.code}>
              {jobTitle(each)}
            </option>
          ))}
        </select>
      </div>
      <div className="choice">
        <label htmlFor={`${id}-shot`}>{jobLabels.intoShot}</label>
        <select id={`${id}-shot`} value={shot} onChange={(event) => setShot(event.target.value)}>
          <option value="">{jobLabels.noShotYet}</option>
          {job?.shots.map((each) => (
            <option key={each.id} value={each.id}>
              {each.name}
            </option>
          ))}
        </select>
      </div>
      <p className="acts">
        <button type="submit" disabled={chosen.length === 0}>
          {jobLabels.moveFrames(framesPhrase(chosen.length))}
        </button>
        <button
          type="button"
          className="plain"
          onClick={() => setLeft(chosen.length === 0 ? new Set() : new Set(tray.map((frame) => frame.id)))}
        >
          {chosen.length === 0 ? jobLabels.chooseAll : jobLabels.chooseNone}
        </button>
      </p>
      <p role="status" className="refusal">
        {refusal}
      </p>
      <ul className="shot-frames">
        {[...tray].reverse().map((frame, index) => (
          <li key={frame.id}>
            <label>
              {index < picturesMax ? <SmallPicture frame={frame} /> : null}
              <span>
                <input type="checkbox" checked={!left.has(frame.id)} onChange={() => toggle(frame.id)} />
                {frame.name}
              </span>
              <span>{clockTime(momentOf(frame))}</span>
            </label>
          </li>
        ))}
      </ul>
    </form>
  );
}
