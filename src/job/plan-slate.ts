import type { EpochMs } from '../base/index.ts';
import type { Purpose } from '../facts/index.ts';
import type { Choice, ChosenOfFrame, FrameChoice } from './choice.ts';
import { shotForArrival } from './in-force.ts';
import { type Job, listedShots } from './job.ts';

/** One word on where frames go, at its place among them: a slate that was seen in a frame, or a person's choice. */
export interface ShotWord {
  /** The slate's place in the order of the shutter; for a person, when it was said. */
  readonly atMs: EpochMs;
  /** When the station learned of it: a slate may be read long after its shutter. */
  readonly heardMs: EpochMs;
  /** What frames go to from then on, and what they went to until then. */
  readonly shot: string | null;
  readonly before: string | null;
}

/** A frame at its place in the order of the shutter. */
export interface FrameInOrder extends ChosenOfFrame {
  readonly camera: string;
  readonly orderMs: EpochMs;
  /** When its first byte came. */
  readonly arrivedMs: EpochMs;
}

/** Words in their order; of two at one moment the one heard last comes last. */
function inOrder(words: readonly ShotWord[]): ShotWord[] {
  return [...words].sort((one, other) => one.atMs - other.atMs || one.heardMs - other.heardMs);
}

/** The shot that frames of this moment go to, as all words together have it. */
export function shotInForce(job: Job, words: readonly ShotWord[], atMs: EpochMs): string | null {
  const ordered = inOrder(words);
  const last = ordered.findLast((word) => word.atMs <= atMs);
  if (last !== undefined) return last.shot;
  const [first] = ordered;
  return first === undefined ? job.currentShot : first.before;
}

/** The listed shot after this one, the first after none; null after the last. */
export function nextShot(job: Job, after: string | null): string | null {
  const shots = listedShots(job);
  return shots[shots.findIndex(({ id }) => id === after) + 1]?.id ?? null;
}

export interface HeedWish {
  readonly job: Job;
  /** The frame that the slate, or the grey card, was seen in. */
  readonly frame: FrameInOrder;
  readonly shot: string;
  /** What such a frame is for, unless somebody has said otherwise. */
  readonly purpose: Purpose;
  /** The job's other words so far. */
  readonly words: readonly ShotWord[];
  /** The job's frames behind it in the order of the shutter. */
  readonly later: readonly FrameInOrder[];
}

/**
 * The choices that a slate makes: its frame and those behind it, up to the next word, go to the shot, but for those that
 * a person moved. Only the last word makes the shot current.
 */
export function planHeed({ job, frame, shot, purpose, words, later }: HeedWish): Choice[] {
  const next = inOrder(words).find(({ atMs }) => atMs > frame.orderMs);
  const moved = [frame, ...later].filter(({ orderMs }) => next === undefined || orderMs < next.atMs);
  const before = shotInForce(job, words, frame.orderMs);
  const { id, job: code } = frame;
  return [
    { type: 'slate-heeded', frame: id, slate: { job: code, shot, before, inForce: true } },
    ...(frame.purpose === 'picture' ? [{ type: 'purpose-set', frame: id, purpose } as const] : []),
    ...(next === undefined && job.currentShot !== shot
      ? [{ type: 'shot-current-set', job: code, shot } as const]
      : []),
    ...moved.flatMap((each) => followed(job, each, shot)),
  ];
}

/**
 * The choices that put a frame to its shot which came, or whose shutter time became known, after a slate behind it had been
 * heeded: as it came it was taken for a later one. None for any other frame.
 */
export function planLate(job: Job, frame: FrameInOrder, words: readonly ShotWord[]): FrameChoice[] {
  const next = inOrder(words).find(({ atMs }) => atMs > frame.orderMs);
  if (next === undefined) return [];
  const wasMoved = frame.placedBy === 'slate';
  return wasMoved || frame.arrivedMs >= next.heardMs
    ? followed(job, frame, shotInForce(job, words, frame.orderMs))
    : [];
}

function followed(job: Job, frame: FrameInOrder, shot: string | null): FrameChoice[] {
  if (frame.placedBy === 'hand' || frame.job !== job.code) return [];
  const own = shotForArrival({ ...job, currentShot: shot }, frame.camera);
  return own === frame.shot ? [] : [{ type: 'shot-followed', frame: frame.id, shot: own, by: 'slate' }];
}
