import type { ReactNode } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { countedPhrase, readingLabels, targetWorthPhrase } from '../../words/index.ts';
import { useCall } from '../choices/use-call.ts';
import { countTarget, targetGone } from '../link/index.ts';
import { clockTime } from '../set/clock.ts';

interface TargetCountProps {
  readonly frame: Frame;
  /** The frame's; null while it lies in the tray. */
  readonly job: Job | null;
}

/** What the target in this frame would do for the frames after it, and the word that lets it. */
export function TargetCount({ frame, job }: TargetCountProps): ReactNode {
  const { run, refusal } = useCall();
  const counted = job?.targets.find((known) => known.frame === frame.id);
  return (
    <div className="plot" data-plot="target-counts">
      <h3>{readingLabels.targetFor}</h3>
      <p>{targetWorthPhrase(frame.readings)}</p>
      {job === null ? (
        <p>{readingLabels.targetNeedsJob}</p>
      ) : (
        <>
          <p>
            {counted === undefined
              ? readingLabels.targetHelp
              : countedPhrase(frame.camera, clockTime(Date.parse(counted.from)), counted.profile !== null)}
          </p>
          <div className="spot-acts">
            <button
              type="button"
              onClick={() =>
                run(() =>
                  counted === undefined ? countTarget(job.code, frame.id) : targetGone(job.code, frame.id),
                )
              }
            >
              {counted === undefined ? readingLabels.letTargetCount : readingLabels.targetNoLonger}
            </button>
          </div>
        </>
      )}
      <p role="status">{refusal}</p>
    </div>
  );
}
