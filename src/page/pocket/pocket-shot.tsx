import type { ReactNode } from 'react';
import type { Frame, JobSummary } from '../../contract/index.ts';
import { isOfTheShoot } from '../../facts/index.ts';
import { framesPhrase, placePhrase, pocketLabels, shotName } from '../../words/index.ts';
import { patchJob } from '../link/index.ts';

interface PocketShotProps {
  readonly job: JobSummary | null;
  readonly frames: readonly Frame[];
  readonly attempt: (change: Promise<unknown>) => void;
}

/** The shot that frames go to now, with the one before and the one after it under the thumb. */
export function PocketShot({ job, frames, attempt }: PocketShotProps): ReactNode {
  const shots = job?.shots ?? [];
  const at = shots.findIndex(({ id }) => id === job?.currentShot);
  const current = shots[at];
  const to = (index: number): void => {
    const shot = shots[index];
    if (job !== null && shot !== undefined) attempt(patchJob(job.code, { currentShot: shot.id }));
  };
  return (
    <nav className="pocket-shot" aria-label={job?.title ?? pocketLabels.noJob}>
      <button
        type="button"
        aria-label={pocketLabels.previousShot}
        disabled={at <= 0}
        onClick={() => to(at - 1)}
      >
        ←
      </button>
      <p aria-live="polite">
        <strong data-testid="pocket-shot">
          {current === undefined
            ? job === null
              ? pocketLabels.noJob
              : pocketLabels.noShot
            : shotName(current, shots)}
        </strong>
        <span>
          {current === undefined
            ? ''
            : `${placePhrase(at + 1, shots.length)}, ${framesPhrase(frames.filter((frame) => frame.shot === current.id && isOfTheShoot(frame)).length)}`}
        </span>
      </p>
      <button
        type="button"
        aria-label={pocketLabels.nextShot}
        disabled={at + 1 >= shots.length}
        onClick={() => to(at + 1)}
      >
        →
      </button>
    </nav>
  );
}
