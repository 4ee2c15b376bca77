import type { Frame, Job } from '../../contract/index.ts';
import { jobOf } from './job-list.ts';
import { momentOf } from './moment.ts';

/** What a frame is held against: another frame, or what somebody drew. */
export type HeldAgainst =
  | { readonly kind: 'frame'; readonly id: string }
  | { readonly kind: 'layout'; readonly job: string; readonly shot: string; readonly layout: string };

/** The reference of a frame's shot as it counted when the frame was taken; else its layout picture; else null. */
export function heldAgainst(jobs: readonly Job[] | null, frame: Frame): HeldAgainst | null {
  const shot = jobOf(jobs, frame.job)?.shots.find(({ id }) => id === frame.shot);
  if (shot === undefined) return null;
  const moment = momentOf(frame);
  const baseline = shot.baselines.findLast(({ from }) => Date.parse(from) <= moment);
  const id = baseline?.frame ?? shot.reference;
  if (id !== null && id !== frame.id) return { kind: 'frame', id };
  return shot.layout === null ? null : { kind: 'layout', job: frame.job, shot: shot.id, layout: shot.layout };
}
