import { type EpochMs, SetsideError } from '../base/index.ts';
import { assertShotWords, assertTolerances, jobToChange, listedShot } from './checks.ts';
import type { JobChoice } from './choice.ts';
import { type Job, type Jobs, listedShots, plainShot, type Shot } from './job.ts';
import { baselinesMax, orderedFramesMax, shotsMax } from './limits.ts';
import { withoutStaleLook } from './looks.ts';
import { newShotId } from './shot-id.ts';

/** What somebody wants a shot to be; what is left out stays, or is as {@link plainShot} has it. */
export type ShotChange = Partial<Omit<Shot, 'id' | 'hidden' | 'baselines'>>;

/** The choices that add a shot at the end; see {@link firstBecomesCurrent}. Throws `no-job`, `job-finished`, `too-many-shots`, `bad-words`, `bad-tolerance`. */
export function planNewShot(jobs: Jobs, code: string, name: string, wish: ShotChange): JobChoice[] {
  const job = jobToChange(jobs, code);
  assertRoom(job, 1);
  const shot = changedShot(plainShot(newShotId(name, idsOf(job)), name), { ...wish, name });
  return [stated(job, shot), ...firstBecomesCurrent(job, shot.id)];
}

/**
 * The first shot of a job that is open already is the one frames go to: who opens a job and then lists its shots means to
 * shoot them, and frames that belong to no shot are noticed too late.
 */
export function firstBecomesCurrent(job: Job, shot: string | undefined): JobChoice[] {
  const first = job.state === 'open' && job.currentShot === null && listedShots(job).length === 0;
  return first && shot !== undefined ? [{ type: 'shot-current-set', job: job.code, shot }] : [];
}

/** Throws `no-job`, `no-shot`, `job-finished`, `bad-words`, `bad-tolerance`, `bad-order`. */
export function planShotChange(jobs: Jobs, code: string, id: string, change: ShotChange): JobChoice[] {
  const job = jobToChange(jobs, code);
  return [stated(job, changedShot(listedShot(job, id), change))];
}

/** The shot with the change. The version chosen of a look is one of that look: another look's name lets go of it. */
export function changedShot(shot: Shot, change: ShotChange): Shot {
  return { ...withoutStaleLook(shot, change), ...change };
}

/**
 * The choices that take a shot from the list: one with frames is hidden, since frames name it. Throws `no-job`, `no-shot`,
 * `job-finished`.
 */
export function planShotRemoval(jobs: Jobs, code: string, id: string, hasFrames: boolean): JobChoice[] {
  const job = jobToChange(jobs, code);
  const shot = listedShot(job, id);
  if (!hasFrames) return [{ type: 'shot-removed', job: code, shot: id }];
  const hidden: JobChoice = { type: 'shot-stated', job: code, shot: { ...shot, hidden: true } };
  return job.currentShot === id ? [hidden, { type: 'shot-current-set', job: code, shot: null }] : [hidden];
}

/** The choices that list a hidden shot again, where it stood; none where it is listed. Throws `no-job`, `no-shot`, `job-finished`. */
export function planShotReturn(jobs: Jobs, code: string, id: string): JobChoice[] {
  const job = jobToChange(jobs, code);
  const shot = job.shots.find((each) => each.id === id);
  if (shot === undefined) throw new SetsideError('no-shot', `job ${code} has no shot "${id}"`);
  return shot.hidden ? [{ type: 'shot-stated', job: code, shot: { ...shot, hidden: false } }] : [];
}

/** The order of the listed shots, each named once. Throws `no-job`, `job-finished`, `bad-order`. */
export function planOrder(jobs: Jobs, code: string, order: readonly string[]): JobChoice[] {
  const job = jobToChange(jobs, code);
  const listed = new Set(listedShots(job).map(({ id }) => id));
  const named = new Set(order);
  if (named.size !== order.length || named.size !== listed.size || order.some((id) => !listed.has(id))) {
    throw new SetsideError('bad-order', `expected each of the ${listed.size} shots once`);
  }
  return [{ type: 'shots-ordered', job: code, shots: [...order] }];
}

/**
 * A deliberate change: from this frame's moment on, frames of the shot are held against it. One from the same moment is
 * replaced. Throws `no-job`, `no-shot`, `job-finished`, `too-many-baselines`.
 */
export function planBaseline(
  jobs: Jobs,
  code: string,
  id: string,
  frame: { readonly id: string; readonly atMs: EpochMs },
): JobChoice[] {
  const job = jobToChange(jobs, code);
  const shot = listedShot(job, id);
  const others = shot.baselines.filter((known) => known.frame !== frame.id && known.fromMs !== frame.atMs);
  if (others.length >= baselinesMax) {
    throw new SetsideError('too-many-baselines', `shot ${id} has ${others.length} baselines already`);
  }
  const baselines = [...others, { frame: frame.id, fromMs: frame.atMs }];
  return [stated(job, { ...shot, baselines: baselines.sort((a, b) => a.fromMs - b.fromMs) })];
}

/** The choices that take a baseline away; none where the frame is none. Throws `no-job`, `no-shot`, `job-finished`. */
export function planBaselineRemoval(jobs: Jobs, code: string, id: string, frame: string): JobChoice[] {
  const job = jobToChange(jobs, code);
  const shot = listedShot(job, id);
  const baselines = shot.baselines.filter((known) => known.frame !== frame);
  return baselines.length === shot.baselines.length ? [] : [stated(job, { ...shot, baselines })];
}

function stated(job: Job, shot: Shot): JobChoice {
  assertShotWords(shot);
  assertTolerances(shot.tolerances);
  assertFrameOrder(shot.order ?? []);
  return { type: 'shot-stated', job: job.code, shot };
}

/** Throws `bad-order`. A frame that is not there means nothing: it may come back. */
function assertFrameOrder(order: readonly string[]): void {
  if (order.length <= orderedFramesMax && new Set(order).size === order.length) return;
  throw new SetsideError('bad-order', `expected each frame once and at most ${orderedFramesMax} of them`);
}

/** Throws `too-many-shots`. Hidden ones count: they are kept. */
export function assertRoom(job: Job, more: number): void {
  if (job.shots.length + more <= shotsMax) return;
  throw new SetsideError(
    'too-many-shots',
    `a job has at most ${shotsMax} shots, this one would have ${job.shots.length + more}`,
  );
}

export function idsOf(job: Job): Set<string> {
  return new Set(job.shots.map(({ id }) => id));
}
