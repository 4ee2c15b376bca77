import type { ReactNode } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { jobLabels, shotName } from '../../words/index.ts';
import { patchShot, removeBaseline, setBaseline } from '../link/index.ts';
import { clockTime } from '../set/clock.ts';
import { jobOf } from '../state/index.ts';
import type { Call } from './use-call.ts';

interface FrameReferenceProps {
  readonly frame: Frame;
  readonly jobs: readonly Job[] | null;
  readonly run: Call['run'];
}

/** What the other frames of the shot are held against: from the start, or from this frame on. */
export function FrameReference({ frame, jobs, run }: FrameReferenceProps): ReactNode {
  const job = jobOf(jobs, frame.job);
  const shot = job?.shots.find(({ id }) => id === frame.shot);
  if (job === null || shot === undefined) return <p className="aside">{jobLabels.referenceNeedsShot}</p>;
  const isReference = shot.reference === frame.id;
  const baseline = shot.baselines.find((known) => known.frame === frame.id);
  return (
    <div className="choice">
      <span>{jobLabels.heldAgainst(shotName(shot, job.shots))}</span>
      <div className="acts">
        <button
          type="button"
          aria-pressed={isReference}
          onClick={() =>
            run(() => patchShot(job.code, shot.id, { reference: isReference ? null : frame.id }))
          }
        >
          {jobLabels.isReference}
        </button>
        <button
          type="button"
          aria-pressed={baseline !== undefined}
          onClick={() =>
            run(() =>
              baseline === undefined
                ? setBaseline(job.code, shot.id, frame.id)
                : removeBaseline(job.code, shot.id, frame.id),
            )
          }
        >
          {jobLabels.baselineFromHere}
        </button>
      </div>
      <small>
        {baseline === undefined
          ? jobLabels.baselineHelp
          : jobLabels.baselineSince(clockTime(Date.parse(baseline.from)))}
      </small>
    </div>
  );
}
