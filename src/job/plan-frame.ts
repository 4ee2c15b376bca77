import { SetsideError } from '../base/index.ts';
import type {
  Acceptance,
  FocusSpot,
  FrameShare,
  Judgement,
  Mark,
  Purpose,
  Question,
} from '../facts/index.ts';
import { jobToChange, listedShot, trayCode } from './checks.ts';
import type { ChosenOfFrame, FrameChoice } from './choice.ts';
import type { Jobs } from './job.ts';

/** What somebody wants of a frame; what is left out stays. */
export interface FrameChange {
  readonly mark?: Mark;
  readonly job?: string;
  readonly shot?: string | null;
  readonly purpose?: Purpose;
  readonly spot?: FocusSpot | null;
  /** A saved version of a look that is kept; null for its shot's or its job's. */
  readonly look?: string | null;
  /** Whether guests see it; null: by its mark. */
  readonly share?: FrameShare | null;
}

/**
 * The choices that change a frame; a place or purpose it has already makes none. One that is moved to another job belongs to no shot there
 * unless one is named, and no slate of that job takes it along: it was put there by hand. Frames of a closed job stay where and
 * what they are; they can still be marked and shared, since a client's word often comes after the day. Throws `no-job`, `no-shot`, `job-finished`.
 */
export function planFrameChange(jobs: Jobs, frame: ChosenOfFrame, change: FrameChange): FrameChoice[] {
  const { mark: _mark, share: _share, ...beyondMark } = change;
  if (Object.keys(beyondMark).length > 0) assertJobNotClosed(jobs, frame.job);
  const job = change.job ?? frame.job;
  const moved = job !== frame.job;
  const shot = change.shot === undefined ? (moved ? null : frame.shot) : change.shot;
  if (moved && job !== trayCode) jobToChange(jobs, job);
  if (shot !== null && (moved || shot !== frame.shot)) {
    if (job === trayCode) throw new SetsideError('no-shot', 'the tray has no shots');
    listedShot(jobToChange(jobs, job), shot);
  }
  const { id } = frame;
  const choices: FrameChoice[] = [];
  // Said again it stands again: of two people who mark the same version only one may be first.
  if (change.mark !== undefined) choices.push({ type: 'mark-set', frame: id, mark: change.mark });
  if (moved) choices.push({ type: 'job-set', frame: id, job });
  if (moved || shot !== frame.shot) choices.push({ type: 'shot-set', frame: id, shot });
  if (change.purpose !== undefined && change.purpose !== frame.purpose)
    choices.push({ type: 'purpose-set', frame: id, purpose: change.purpose });
  if (change.spot !== undefined && !(change.spot === null && frame.spot === null))
    choices.push({ type: 'spot-set', frame: id, spot: change.spot });
  if (change.look !== undefined && change.look !== frame.look)
    choices.push({ type: 'look-set', frame: id, look: change.look });
  if (change.share !== undefined && change.share !== frame.share)
    choices.push({ type: 'share-set', frame: id, share: change.share });
  return choices;
}

/** What belongs to a closed job waits until it is opened again, as the job itself does. Throws `job-finished`. */
export function assertJobNotClosed(jobs: Jobs, code: string): void {
  if (jobs.has(code)) jobToChange(jobs, code);
}

/** The choice by which somebody takes a verdict upon themselves. Throws `verdict-is-good` where there is nothing to accept. */
export function planAcceptance(
  frame: string,
  question: Question,
  judgement: Judgement,
  { name, reason }: Pick<Acceptance, 'name' | 'reason'>,
): FrameChoice[] {
  if (judgement === 'good') {
    throw new SetsideError('verdict-is-good', `the verdict on frame ${frame} is good: nothing to accept`);
  }
  return [{ type: 'acceptance-set', frame, question, acceptance: { judgement, name, reason } }];
}
