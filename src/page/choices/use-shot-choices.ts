import { useCallback } from 'react';
import { patchFrame, patchJob } from '../link/index.ts';
import { moveTo, openJobOf, type PageState, shotBeside } from '../state/index.ts';
import { type Call, useCall } from './use-call.ts';

export interface ShotChoices extends Pick<Call, 'refusal'> {
  /** Frames go to the shot beside the current one from now on. */
  readonly stepShot: (by: -1 | 1) => void;
  /** Moves a frame to a shot of the open job. */
  readonly moveFrame: (frame: string, shot: string) => void;
}

/** What is done with shots from the Set page by a key, a click or a drag. */
export function useShotChoices({ jobs, frames }: PageState): ShotChoices {
  const { refusal, run } = useCall();
  const job = openJobOf(jobs);
  const stepShot = useCallback(
    (by: -1 | 1) => {
      const next = job === null ? null : shotBeside(job, by);
      if (job !== null && next !== null) void run(() => patchJob(job.code, { currentShot: next.id }));
    },
    [job, run],
  );
  const moveFrame = useCallback(
    (id: string, shot: string) => {
      const frame = frames.byId.get(id);
      if (job === null || frame === undefined) return;
      if (frame.job === job.code && frame.shot === shot) return;
      void run(() => patchFrame(id, moveTo(frame, job.code, shot)));
    },
    [job, frames, run],
  );
  return { refusal, stepShot, moveFrame };
}
