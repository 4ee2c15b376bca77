import { jobToChange, listedShot } from './checks.ts';
import type { Choice, ChosenOfFrame } from './choice.ts';
import type { Jobs } from './job.ts';
import type { KeptLook } from './looks.ts';
import { planFrameChange } from './plan-frame.ts';

/** What a saved version is to be the look of: a job itself, or some of its shots; and single frames. */
export interface LookPlaces {
  readonly job: string | null;
  /** Whether the job itself is meant, beside the shots. */
  readonly whole: boolean;
  readonly shots: readonly string[];
  readonly frames: readonly ChosenOfFrame[];
}

/**
 * The choices that give all of them this version; those that have it already make none. Throws `no-job`, `no-shot`,
 * `job-finished`.
 */
export function planLookUse(
  jobs: Jobs,
  { id: lookId, name: look }: Pick<KeptLook, 'id' | 'name'>,
  { job: code, whole, shots, frames }: LookPlaces,
): Choice[] {
  const ofFrames = frames.flatMap((frame): Choice[] => planFrameChange(jobs, frame, { look: lookId }));
  if (code === null) return ofFrames;
  const job = jobToChange(jobs, code);
  const ofShots = [...new Set(shots)]
    .map((id) => listedShot(job, id))
    .filter((shot) => shot.lookId !== lookId)
    .map((shot): Choice => ({ type: 'shot-stated', job: code, shot: { ...shot, look, lookId } }));
  const ofJob: Choice[] =
    !whole || job.handOver.lookId === lookId
      ? []
      : [{ type: 'job-hand-over-set', job: code, ...job.handOver, look, lookId }];
  return [...ofJob, ...ofShots, ...ofFrames];
}
