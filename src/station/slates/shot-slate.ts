import type { EpochMs } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  type Choice,
  type FrameInOrder,
  type Job,
  type Jobs,
  listedShots,
  nextShot,
  planHeed,
  type ShotWord,
  shotInForce,
} from '../../job/index.ts';
import type { ShotSlate } from '../../slate/index.ts';

/** What is made of a slate or a grey card. */
export interface Heeded {
  readonly finding: Finding;
  /** Empty where it changes nothing. */
  readonly choices: readonly Choice[];
}

/** The frame and what lies around it. */
export interface Surroundings {
  readonly jobs: Jobs;
  readonly frame: FrameInOrder;
  /** Words on where frames of its job go. */
  readonly words: readonly ShotWord[];
  /** Frames of its job behind it. */
  readonly later: readonly FrameInOrder[];
  readonly nowMs: EpochMs;
}

/**
 * A slate counts on the day it was held into the picture: one that is read so long after its frame came is one of a register
 * that was lost and is made anew.
 */
export const heededWithinMs: number = 12 * 3_600_000;

/** What a slate that names a shot changes; nothing where job or shot are not those of now. */
export function heedShot(slate: ShotSlate, around: Surroundings): Heeded {
  const { jobs, frame } = around;
  const job = jobs.get(slate.job);
  const args = { job: slate.job, shot: slate.shot };
  if (job === undefined) return seenOnly(frame, { code: 'slate.unknown-job', args });
  if (job.state !== 'open' || frame.job !== job.code)
    return seenOnly(frame, { code: 'slate.other-job', args });
  if (!listedShots(job).some(({ id }) => id === slate.shot))
    return seenOnly(frame, { code: 'slate.unknown-shot', args });
  return heed(job, slate.shot, 'slate', around);
}

/** What a grey card that fills the frame changes. `again`: the frame beside it shows the same card. */
export function heedGreyCard(around: Surroundings, again: boolean): Heeded {
  const { jobs, frame, words } = around;
  const job = jobs.get(frame.job);
  if (job === undefined || job.state !== 'open')
    return { finding: { code: 'slate.grey-card-seen', args: {} }, choices: [] };
  if (again) return targetOnly(frame, { code: 'slate.grey-card-again', args: {} });
  const shot = nextShot(job, shotInForce(job, words, frame.orderMs));
  return shot === null
    ? targetOnly(frame, { code: 'slate.no-next-shot', args: {} })
    : heed(job, shot, 'grey-card', around);
}

/** The picture of a rehearsal is kept and shown, and nothing is asked of it: it is a test, and no slate whatever it shows. */
export function heedRehearsal(frame: FrameInOrder): Heeded {
  return { finding: { code: 'slate.rehearsal', args: { camera: frame.camera } }, choices: asTest(frame) };
}

function heed(job: Job, shot: string, what: 'slate' | 'grey-card', around: Surroundings): Heeded {
  const { frame, words, later, nowMs } = around;
  if (nowMs - frame.arrivedMs > heededWithinMs) return seenOnly(frame, { code: 'slate.too-late', args: {} });
  const purpose = what === 'slate' ? 'test' : 'target';
  const choices = planHeed({ job, frame, shot, purpose, words, later });
  const isLast = !words.some(({ atMs }) => atMs > frame.orderMs);
  const name = job.shots.find(({ id }) => id === shot)?.name ?? shot;
  return {
    finding: { code: `slate.${what}-${isLast ? 'now' : 'from-here'}`, args: { shot, name } },
    choices,
  };
}

/** That it was seen is journalled, so that the same picture read anew on another day changes nothing either. */
function seenOnly(frame: FrameInOrder, finding: Finding): Heeded {
  return { finding, choices: [notInForce(frame)] };
}

function targetOnly(frame: FrameInOrder, finding: Finding): Heeded {
  const purpose: Choice[] =
    frame.purpose === 'picture' ? [{ type: 'purpose-set', frame: frame.id, purpose: 'target' }] : [];
  return { finding, choices: [notInForce(frame), ...purpose] };
}

function notInForce(frame: FrameInOrder): Choice {
  const { id, job, shot } = frame;
  return { type: 'slate-heeded', frame: id, slate: { job, shot, before: shot, inForce: false } };
}

/** The frame is a test, unless somebody has said otherwise, and that was noted once for all times it is looked at. */
export function asTest(frame: FrameInOrder): readonly Choice[] {
  const purpose: Choice[] =
    frame.purpose === 'picture' ? [{ type: 'purpose-set', frame: frame.id, purpose: 'test' }] : [];
  return [notInForce(frame), ...purpose];
}
