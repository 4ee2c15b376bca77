import type { Frame } from '../../contract/index.ts';
import { isOfTheShoot } from '../../facts/index.ts';
import { shotName } from '../../words/index.ts';

/** The job as far as its line of shots is concerned; of a summary it is not known how many heroes are wanted. */
export interface LinedJob {
  readonly code: string;
  readonly currentShot?: string | null | undefined;
  readonly shots: readonly { readonly id: string; readonly name: string; readonly heroes?: number }[];
}

/** One shot as a stop on the day's line. */
export interface ShotStop {
  readonly id: string;
  /** With its id where another shot is called the same. */
  readonly name: string;
  readonly frames: number;
  /** `open`: nothing taken yet; `taken`: frames, but heroes are missing; `chosen`: as many heroes as are wanted. */
  readonly state: 'open' | 'taken' | 'chosen';
  readonly heroes: number;
  /** Frames go to it as they come. */
  readonly current: boolean;
}

/** The job's shots in its own order. A copied job has the ids of the first, so a frame counts in its own job only. */
export function shotStops(job: LinedJob | null, frames: readonly Frame[]): ShotStop[] {
  if (job === null) return [];
  const taken = new Map<string, { frames: number; heroes: number }>();
  for (const frame of frames) {
    if (frame.job !== job.code || frame.shot === null || !isOfTheShoot(frame)) continue;
    const count = taken.get(frame.shot) ?? { frames: 0, heroes: 0 };
    count.frames += 1;
    if (frame.mark === 'hero') count.heroes += 1;
    taken.set(frame.shot, count);
  }
  return job.shots.map(({ id, name, heroes: wanted = 1 }) => {
    const { frames: count, heroes } = taken.get(id) ?? { frames: 0, heroes: 0 };
    const chosen = heroes > 0 && heroes >= wanted;
    const state = count === 0 ? 'open' : chosen ? 'chosen' : 'taken';
    return {
      id,
      name: shotName({ id, name }, job.shots),
      frames: count,
      heroes,
      state,
      current: id === job.currentShot,
    };
  });
}

/** The shot that one step along the line leads to; null at its ends. From nowhere it leads to the first. */
export function shotBeside(job: LinedJob, by: -1 | 1): LinedJob['shots'][number] | null {
  const at = job.shots.findIndex(({ id }) => id === job.currentShot);
  return (at < 0 ? job.shots[0] : job.shots[at + by]) ?? null;
}
