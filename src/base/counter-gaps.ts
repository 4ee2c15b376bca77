import type { EpochMs } from './time.ts';

/** What of a frame says which number its camera gave it, and when it came. */
export interface NumberedFrame {
  readonly id: string;
  /** The log-in. */
  readonly camera: string;
  readonly name: string;
  /** Running number in the name, 1 to 9999; null where the name holds none for sure. */
  readonly counter: number | null;
  /** Its place in the day. */
  readonly momentMs: EpochMs;
  /** When its first byte came: nobody's clock but the station's. */
  readonly cameMs: EpochMs;
}

/** Counters of one camera that never came, between two frames that did. */
export interface CounterGap {
  /** No frame's id; the same gap has the same one. */
  readonly id: string;
  readonly camera: string;
  /** {@link namePrefix} of the names around it. */
  readonly prefix: string;
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Just before the frame that came after: nobody knows when the others were taken. */
  readonly momentMs: EpochMs;
}

/** CIPA DC-009 (DCF 2.0) 3.3.1: file numbers run from 0001 to 9999; after 9999 comes 0001. */
export const counterMax = 9999;
/** A larger jump is another card or a counter set back, not so many frames lost. */
export const gapMax = 200;

/**
 * Gaps of every camera, told apart by log-in and by name, in the order of the day. `frames` in order of the day. A number
 * that came elsewhere in the day, because the camera's clock was off, is not missing, nor is one that lies `elsewhere`: in
 * another job, say.
 */
export function counterGaps(
  frames: readonly NumberedFrame[],
  elsewhere: readonly NumberedFrame[] = [],
): CounterGap[] {
  const last = new Map<string, Counted>();
  const gaps: CounterGap[] = [];
  const byCounting = countedFrames([...frames, ...elsewhere]);
  for (const frame of frames) {
    if (frame.counter === null) continue;
    const counting = countingOf(frame);
    const after = { frame, counter: frame.counter };
    const before = last.get(counting);
    if (before !== undefined) gaps.push(...gapsBetween(before, after, byCounting.get(counting) ?? new Map()));
    last.set(counting, after);
  }
  return gaps;
}

/** How many numbers lie after the first up to the second, counting on from 9999 to 1: 0 to 9998. */
export function numbersOn(from: number, to: number): number {
  return (to - from + counterMax) % counterMax;
}

/** The number after this one. */
export function numberAfter(counter: number): number {
  return (counter % counterMax) + 1;
}

/** Who counts: a camera by its log-in, and what tells two of one log-in apart. */
export function countingOf({ camera, name }: Pick<NumberedFrame, 'camera' | 'name'>): string {
  return `${camera} ${namePrefix(name)}`;
}

/**
 * What tells two cameras with one log-in apart: the free characters in front of the number. Only the last two that are
 * no underscore, since a camera puts one at the front or in the place of the first for another colour space (DCF's
 * optional files) and counts on.
 */
export function namePrefix(name: string): string {
  return name.slice(0, 4).replaceAll('_', '').slice(-2).toUpperCase();
}

interface Counted {
  readonly frame: NumberedFrame;
  readonly counter: number;
}

/** When each number came last, by what counts. */
function countedFrames(frames: readonly NumberedFrame[]): ReadonlyMap<string, ReadonlyMap<number, EpochMs>> {
  const found = new Map<string, Map<number, EpochMs>>();
  for (const frame of frames) {
    if (frame.counter === null) continue;
    const counting = countingOf(frame);
    const numbers = found.get(counting) ?? new Map<number, EpochMs>();
    numbers.set(frame.counter, Math.max(frame.cameMs, numbers.get(frame.counter) ?? 0));
    found.set(counting, numbers);
  }
  return found;
}

function gapsBetween(before: Counted, after: Counted, came: ReadonlyMap<number, EpochMs>): CounterGap[] {
  const count = (after.counter - before.counter - 1 + counterMax) % counterMax;
  if (count === 0 || count > gapMax) return [];
  const beforeMs = before.frame.cameMs;
  const missing = Array.from({ length: count }, (_, index) => ((before.counter + index) % counterMax) + 1)
    // One that came before the frame in front is another card's, from before the counter was set back.
    .map((counter) => ((came.get(counter) ?? Number.NEGATIVE_INFINITY) >= beforeMs ? null : counter));
  return runsOf(missing).map((run) => gapOf(run, after.frame));
}

/** Numbers that follow each other without one between them that came. */
function runsOf(missing: readonly (number | null)[]): number[][] {
  const runs: number[][] = [[]];
  for (const counter of missing) {
    if (counter === null) runs.push([]);
    else runs.at(-1)?.push(counter);
  }
  return runs.filter((run) => run.length > 0);
}

function gapOf(run: readonly number[], after: NumberedFrame): CounterGap {
  const [from = 0] = run;
  return {
    id: `gap from ${from} before ${after.id}`,
    camera: after.camera,
    prefix: namePrefix(after.name),
    from,
    to: run.at(-1) ?? from,
    count: run.length,
    momentMs: after.momentMs - 1,
  };
}
