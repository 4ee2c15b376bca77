import { type ReactNode, useId } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { jobLabels, jobTitle, shotlessSentence, shotName } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import { moveTo, trayCode } from '../state/index.ts';
import type { Call } from './use-call.ts';

interface FramePlaceProps {
  readonly frame: Frame;
  readonly jobs: readonly Job[] | null;
  readonly run: Call['run'];
}

/** The shot a frame belongs to: any shot of any job that is not closed, or the tray. */
export function FramePlace({ frame, jobs, run }: FramePlaceProps): ReactNode {
  const id = useId();
  const listed = (jobs ?? []).filter(({ code, state }) => state !== 'closed' || code === frame.job);
  const move = (value: string): void => {
    const place = placeIn(value);
    if (place === null) return;
    void run(() =>
      patchFrame(frame.id, place.job === trayCode ? { job: trayCode } : moveTo(frame, place.job, place.shot)),
    );
  };
  return (
    <div className="choice">
      <label htmlFor={id}>{jobLabels.belongsTo}</label>
      <select
        id={id}
        aria-describedby={frame.shotless === null ? undefined : `${id}-why`}
        value={placeValue(frame.job, frame.shot)}
        onChange={(event) => move(event.target.value)}
      >
        {frame.job === trayCode || jobs?.some(({ code }) => code === frame.job) ? null : (
          <option value={placeValue(frame.job, frame.shot)}>{jobLabels.goneJob(frame.job)}</option>
        )}
        {listed.map((job) => (
          <optgroup key={job.code} label={jobTitle(job)} disabled={job.state === 'closed'}>
            <option value={placeValue(job.code, null)}>{jobLabels.noShotOf(job.code)}</option>
            {job.shots.map((shot) => (
              <option key={shot.id} value={placeValue(job.code, shot.id)}>
                {shotName(shot, job.shots)}
              </option>
            ))}
            {frame.job === job.code && isHidden(job, frame.shot) ? (
              <option value={placeValue(job.code, frame.shot)}>{jobLabels.hiddenShot}</option>
            ) : null}
          </optgroup>
        ))}
        <option value={placeValue(trayCode, null)}>{jobLabels.theTray}</option>
      </select>
      {frame.shotless === null ? null : <small id={`${id}-why`}>{shotlessSentence(frame.shotless)}</small>}
    </div>
  );
}

function isHidden(job: Job, shot: string | null): boolean {
  return shot !== null && !job.shots.some(({ id }) => id === shot);
}

function placeValue(job: string, shot: string | null): string {
  return JSON.stringify([job, shot]);
}

/** Back from {@link placeValue}. */
function placeIn(value: string): { readonly job: string; readonly shot: string | null } | null {
  const parts: unknown = JSON.parse(value);
  if (!Array.isArray(parts)) return null;
  const [job, shot]: unknown[] = parts;
  return typeof job === 'string' ? { job, shot: typeof shot === 'string' ? shot : null } : null;
}
