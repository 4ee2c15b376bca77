import type { Frame, JobSummary } from '../../contract/index.ts';

/** One shot as a stop on the day's line. */
export interface ShotStop {
  readonly id: string;
  readonly name: string;
  readonly frames: number;
  /** `open`: nothing taken yet; `taken`: frames but no hero; `chosen`: its hero is marked. */
  readonly state: 'open' | 'taken' | 'chosen';
  readonly current: boolean;
}

/** The job's shots in its own order; the current one is that of the newest frame, else the first still open. */
export function shotStops(job: JobSummary | null, frames: readonly Frame[]): ShotStop[] {
  if (job === null) return [];
  const current = currentShot(job, frames);
  return job.shots.map(({ id, name }) => {
    const taken = frames.filter((frame) => frame.shot === id);
    const chosen = taken.some((frame) => frame.mark === 'hero');
    const state = chosen ? 'chosen' : taken.length > 0 ? 'taken' : 'open';
    return { id, name, frames: taken.length, state, current: id === current };
  });
}

function currentShot(job: JobSummary, frames: readonly Frame[]): string | null {
  const known = new Set(job.shots.map((shot) => shot.id));
  const newest = frames.findLast((frame) => frame.shot !== null && known.has(frame.shot));
  const untouched = job.shots.find((shot) => !frames.some((frame) => frame.shot === shot.id));
  return newest?.shot ?? untouched?.id ?? null;
}
