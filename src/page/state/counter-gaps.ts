import type { Frame } from '../../contract/index.ts';
import { momentOf } from './moment.ts';

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

/** Gaps of every camera, told apart by log-in and by name, in the order of the day. `frames` in order of the day. */
export function counterGaps(frames: readonly Frame[]): CounterGap[] {
  const last = new Map<string, Frame>();
  const gaps: CounterGap[] = [];
  for (const frame of frames) {
    if (frame.counter === null) continue;
    const counting = `${frame.camera} ${namePrefix(frame.name)}`;
    const gap = gapBetween(last.get(counting), frame, frame.counter);
    if (gap !== null) gaps.push(gap);
    last.set(counting, frame);
  }
  return gaps;
}

/**
 * What tells two cameras with one log-in apart: the free characters in front of the number. Only the last two that are
 * no underscore, since a camera puts one at the front or in the place of the first for another colour space (DCF's
 * optional files) and counts on.
 */
function namePrefix(name: string): string {
  return name.slice(0, 4).replaceAll('_', '').slice(-2).toUpperCase();
}

function gapBetween(before: Frame | undefined, after: Frame, counter: number): CounterGap | null {
  if (before === undefined || before.counter === null) return null;
  const count = (counter - before.counter - 1 + counterMax) % counterMax;
  if (count === 0 || count > gapMax) return null;
  return {
    id: `gap before ${after.id}`,
    camera: after.camera,
    from: (before.counter % counterMax) + 1,
    to: counter === 1 ? counterMax : counter - 1,
    count,
    momentMs: momentOf(after) - 1,
  };
}
