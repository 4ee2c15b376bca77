import type { EpochMs } from '../base/index.ts';
import {
  type Acceptance,
  type CountedTarget,
  type Judgement,
  type Purpose,
  type Question,
  questions,
  type ShotScale,
  type Tolerances,
} from '../facts/index.ts';
import type { Job, Shot } from './job.ts';

/** The limits for a frame of the shot: each of the shot's own, else the job's. */
export function tolerancesInForce(job: Job, shot: Shot | null): Tolerances {
  return { ...job.tolerances, ...shot?.tolerances };
}

/**
 * The frame that one of this moment in the day (`dayMoment`) is held against: the newest baseline up to then, else the shot's
 * reference.
 */
export function referenceInForce({ baselines, reference }: Shot, momentMs: EpochMs): string | null {
  return baselines.findLast(({ fromMs }) => fromMs <= momentMs)?.frame ?? reference;
}

/**
 * The target that a frame of this camera and moment in the day is held against: the newest that counts by then; null where
 * there is none. A target is held against the one before it.
 */
export function targetInForce(
  { targets }: Pick<Job, 'targets'>,
  frame: { readonly id: string; readonly camera: string; readonly momentMs: EpochMs },
): CountedTarget | null {
  return (
    targets.findLast(
      ({ frame: id, camera, fromMs }) =>
        id !== frame.id && camera === frame.camera && fromMs <= frame.momentMs,
    ) ?? null
  );
}

/**
 * The target that frames of this camera and moment in the day are rendered by: the newest that counts by then, the frame's
 * own among them; null where there is none.
 */
export function targetToRenderBy(
  { targets }: Pick<Job, 'targets'>,
  { camera, momentMs }: { readonly camera: string; readonly momentMs: EpochMs },
): CountedTarget | null {
  return targets.findLast((target) => target.camera === camera && target.fromMs <= momentMs) ?? null;
}

/** How large things are in the pictures of a shot; null where nobody told it. */
export function scaleInForce({ scales }: Pick<Job, 'scales'>, shot: string | null): ShotScale | null {
  return scales.find((each) => each.shot === shot) ?? null;
}

/** The verdicts that a frame needs. Only a picture is judged fully; whatever it is for, it has to arrive. */
export function requiredOf(shot: Shot, purpose: Purpose): readonly Question[] {
  const wanted = questions.filter((question) => shot.requires.includes(question));
  return purpose === 'picture' ? wanted : wanted.filter((question) => question === 'arrived');
}

/** How far a verdict is from good. What nobody could tell may still turn out to be bad. */
const distance: Readonly<Record<Judgement, number>> = { good: 0, doubt: 1, unknown: 2, bad: 3 };

/** Whether an acceptance covers the verdict as it is now: it must not be worse than the one that was accepted. */
export function covers(acceptance: Pick<Acceptance, 'judgement'>, judgement: Judgement): boolean {
  return distance[judgement] <= distance[acceptance.judgement];
}

/** The required questions of a frame that are neither good nor accepted, in the order they are asked. */
export function openQuestions(
  shot: Shot,
  frame: {
    readonly purpose: Purpose;
    readonly judgements: Readonly<Record<Question, Judgement>>;
    readonly acceptances: readonly Acceptance[];
  },
): readonly Question[] {
  return requiredOf(shot, frame.purpose).filter((question) => {
    const judgement = frame.judgements[question];
    const accepted = frame.acceptances.find((each) => each.question === question);
    return judgement !== 'good' && !(accepted !== undefined && covers(accepted, judgement));
  });
}

/** The shot a frame of this camera goes to as it comes, or null. */
export function shotForArrival(job: Pick<Job, 'currentShot' | 'shots'>, camera: string): string | null {
  const shot = job.shots.find(({ id, hidden }) => id === job.currentShot && !hidden);
  return shot !== undefined && (shot.camera === null || shot.camera === camera) ? shot.id : null;
}

/** What is to be added to a camera's own time for a frame that arrived at this moment, ms. */
export function clockOffsetInForce(history: readonly ClockOffset[], arrivedMs: EpochMs): number {
  return history.findLast(({ sinceMs }) => sinceMs === null || sinceMs <= arrivedMs)?.offsetMs ?? 0;
}

/** Said once, in the order of saying: for all of the camera's frames, or for those that arrive from a moment on. */
export interface ClockOffset {
  /** Station's time minus camera's time, ms. */
  readonly offsetMs: number;
  readonly sinceMs: EpochMs | null;
}
