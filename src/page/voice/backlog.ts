import type { Judgement } from '../../facts/index.ts';
import type { Telling } from './telling.ts';

/** What is being said and what waits. Plain data; the clock comes in. */
export interface Backlog {
  readonly saying: readonly Telling[];
  readonly sinceMs: number;
  /** Oldest first; one telling for each frame. */
  readonly waiting: readonly Telling[];
}

export const nothingToSay: Backlog = { saying: [], sinceMs: 0, waiting: [] };

/** After so long the word has been heard, and a newer frame is more than the rest of the sentence. */
export const wordHeardMs = 1500;

const gravity: Readonly<Record<Judgement, number>> = { bad: 3, doubt: 2, unknown: 1, good: 0 };

/** The gravest of what is told together. */
export function gravest(tellings: readonly Telling[]): Judgement {
  return tellings.reduce<Judgement>(
    (worst, { judgement }) => (gravity[judgement] > gravity[worst] ? judgement : worst),
    'good',
  );
}

/**
 * A new telling. The newest wins: what is being said is cut short once its word has been heard, or at once by something
 * graver. Until then it waits, and all that waits is summed up. Whenever `saying` is another list than before it is to be
 * begun, and what sounds is to be stopped.
 */
export function take(backlog: Backlog, told: Telling, nowMs: number): Backlog {
  const waiting = [...backlog.waiting.filter(({ frame }) => frame !== told.frame), told];
  const idle = backlog.saying.length === 0;
  const heard = nowMs - backlog.sinceMs >= wordHeardMs;
  const graver = gravity[told.judgement] > gravity[gravest(backlog.saying)];
  return idle || heard || graver ? begin(waiting, nowMs) : { ...backlog, waiting };
}

/** What was being said has ended by itself. */
export function ended(backlog: Backlog, nowMs: number): Backlog {
  return begin(backlog.waiting, nowMs);
}

function begin(waiting: readonly Telling[], nowMs: number): Backlog {
  return { saying: waiting, sinceMs: nowMs, waiting: [] };
}
