import { isOfTheShoot, type Mark } from '../../facts/index.ts';
import type { FrameList } from '../state/index.ts';

/** Whether a frame of the job has one of these marks: without one the station refuses to plan a delivery. */
export function anyMarked({ byId }: Pick<FrameList, 'byId'>, job: string, marks: readonly Mark[]): boolean {
  for (const frame of byId.values())
    if (frame.job === job && marks.includes(frame.mark) && isOfTheShoot(frame)) return true;
  return false;
}
