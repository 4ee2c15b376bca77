import type { Tolerances } from '../../facts/index.ts';
import { type Jobs, referenceInForce, tolerancesInForce } from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';

/** What a frame's readings are held against. */
export interface FrameLimits {
  readonly tolerances: Tolerances;
  /** Id of the frame its shot is held against; null for none, and for that frame itself. */
  readonly reference: string | null;
}

/** The limits that its job and shot set for a frame now. */
export function limitsOfFrame(
  jobs: Jobs,
  { id, job: code, shot: shotId, orderMs }: Pick<FrameRow, 'id' | 'job' | 'shot' | 'orderMs'>,
): FrameLimits {
  const job = jobs.get(code);
  if (job === undefined) return { tolerances: {}, reference: null };
  const shot = job.shots.find((each) => each.id === shotId) ?? null;
  const reference = shot === null ? null : referenceInForce(shot, orderMs);
  return { tolerances: tolerancesInForce(job, shot), reference: reference === id ? null : reference };
}
