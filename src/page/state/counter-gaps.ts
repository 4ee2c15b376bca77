import type { Frame } from '../../contract/index.ts';
import { instantMs, momentOf } from './moment.ts';

/** Counters of one camera that never came, between two frames that did. */
export interface CounterGap {
  /** Unique on the page, and no frame's. */
  readonly id: string;
  readonly camera: string;
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Epoch milliseconds just before the frame that came after: nobody knows when the others were taken. */
  readonly momentMs: number;
}

/** CIPA DC-009 (DCF 2.0) 3.3.1: file numbers run from 0001 to 9999; after 9999 comes 0001. */
const counterMax = 9999;
/** A larger jump is another card or a counter set back, not so many frames lost. */
const gapMax = 200;

/**
 * Gaps of every camera, told apart by log-in and by name, in the order of the day. `frames` in order of the day. A number
 * that came elsewhere in the day, because the camera's clock was off, is not missing.
 */
export function counterGaps(frames: readonly Frame[]): CounterGap[] {
  const last = new Map<string, Counted>();
  const gaps: CounterGap[] = [];
  const byCounting = countedFrames(frames);
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

interface Counted {
  readonly frame: Frame;
  readonly counter: number;
}

function countingOf({ camera, name }: Frame): string {
  return `${camera} ${namePrefix(name)}`;
}

/** When each number came last, epoch milliseconds, by what counts. */
function countedFrames(frames: readonly Frame[]): ReadonlyMap<string, ReadonlyMap<number, number>> {
  const found = new Map<string, Map<number, number>>();
  for (const frame of frames) {
    if (frame.counter === null) continue;
    const counting = countingOf(frame);
    const numbers = found.get(counting) ?? new Map<number, number>();
    numbers.set(frame.counter, Math.max(cameMs(frame), numbers.get(frame.counter) ?? 0));
    found.set(counting, numbers);
  }
  return found;
}

function cameMs(frame: Frame): number {
  return instantMs(frame.times.firstByte) ?? momentOf(frame);
}

/**
 * What tells two cameras with one log-in apart: the free characters in front of the number. Only the last two that are
 * no underscore, since a camera puts one at the front or in the place of the first for another colour space (DCF's
 * optional files) and counts on.
 */
function namePrefix(name: string): string {
  return name.slice(0, 4).replaceAll('_', '').slice(-2).toUpperCase();
}

function gapsBetween(before: Counted, after: Counted, came: ReadonlyMap<number, number>): CounterGap[] {
  const count = (after.counter - before.counter - 1 + counterMax) % counterMax;
  if (count === 0 || count > gapMax) return [];
  const beforeMs = cameMs(before.frame);
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

function gapOf(run: readonly number[], after: Frame): CounterGap {
  const [from = 0] = run;
  return {
    id: `gap from ${from} before ${after.id}`,
    camera: after.camera,
    from,
    to: run.at(-1) ?? from,
    count: run.length,
    momentMs: momentOf(after) - 1,
  };
}
