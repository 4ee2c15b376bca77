import type { Frame, Job } from '../../contract/index.ts';
import { isOfTheShoot } from '../../facts/index.ts';

/** Where frames go while no job is open. */
export const trayCode = 'unsorted';

/** The jobs whose shots a frame may be moved to: its own first, then the open one; closed ones take nothing. */
export function jobsForFrame(jobs: readonly Job[] | null, frame: Pick<Frame, 'job'>): readonly Job[] {
  const able = (jobs ?? []).filter(({ state }) => state !== 'closed');
  const own = able.filter(({ code }) => code === frame.job);
  const open = able.filter(({ code, state }) => state === 'open' && code !== frame.job);
  return [...own, ...open];
}

/** The change that brings a frame to a shot of a job, or to none of its shots. */
export function moveTo(
  frame: Pick<Frame, 'job'>,
  job: string,
  shot: string | null,
): { job?: string; shot: string | null } {
  return frame.job === job ? { shot } : { job, shot };
}

/** Frames of the tray, in order of the day. */
export function trayFrames(frames: readonly Frame[]): readonly Frame[] {
  return frames.filter((frame) => frame.job === trayCode && isOfTheShoot(frame));
}
