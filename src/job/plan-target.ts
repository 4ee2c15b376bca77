import { type EpochMs, SetsideError } from '../base/index.ts';
import type { CameraProfile } from '../facts/index.ts';
import { jobToChange } from './checks.ts';
import type { Choice, ChosenOfFrame } from './choice.ts';
import type { Jobs } from './job.ts';
import { targetsMax } from './limits.ts';

/** A frame in which a target was measured. */
export interface MeasuredTarget {
  readonly chosen: Pick<ChosenOfFrame, 'id' | 'job' | 'purpose'>;
  readonly camera: string;
  /** Its moment in the day. */
  readonly atMs: EpochMs;
  /** Made from it; null where none could be. */
  readonly profile: CameraProfile | null;
}

/**
 * A new target: from this frame's moment on, frames of its camera are held against it. One of the same camera from the same
 * moment is replaced, and the frame is from now on one that was taken for its target. Throws `no-job`, `job-finished`, `too-many-targets`.
 */
export function planNewTarget(jobs: Jobs, { chosen, camera, atMs, profile }: MeasuredTarget): Choice[] {
  const { id: frame, job: code, purpose } = chosen;
  const job = jobToChange(jobs, code);
  const others = job.targets.filter(
    (known) => known.frame !== frame && !(known.camera === camera && known.fromMs === atMs),
  );
  if (others.length >= targetsMax) {
    throw new SetsideError('too-many-targets', `job ${code} has ${others.length} targets already`);
  }
  const targets = [...others, { frame, camera, fromMs: atMs, profile }];
  targets.sort((a, b) => a.fromMs - b.fromMs);
  return [
    { type: 'job-targets-set', job: code, targets },
    ...(purpose === 'target' ? [] : [{ type: 'purpose-set', frame, purpose: 'target' } as const]),
  ];
}

/** The frame's target counts no longer; none where it did not. Throws `no-job`, `job-finished`. */
export function planTargetGone(jobs: Jobs, code: string, frame: string): Choice[] {
  const job = jobToChange(jobs, code);
  const left = job.targets.filter((known) => known.frame !== frame);
  return left.length === job.targets.length ? [] : [{ type: 'job-targets-set', job: code, targets: left }];
}
