import type { Look } from '../../../look/index.ts';
import type { Base } from './base.ts';

/** One look on the way, and what it was made from: undo leads back to both. */
export interface Step {
  readonly look: Look;
  /** What was opened or saved last before it. */
  readonly base: Base;
  /** Turns since the base; counted here, so that a way of which a browser kept the newer half counts right. */
  readonly since: number;
}

/** What was turned, one after the other, without limit. */
export interface LookHistory {
  readonly past: readonly Step[];
  readonly present: Step;
  readonly future: readonly Step[];
  /** The knob that is being turned: all of a turn is one step back. */
  readonly turning: string | null;
}

export function stepOf(base: Base): Step {
  return { look: base.document, base, since: 0 };
}

export function beginHistory(base: Base): LookHistory {
  return { past: [], present: stepOf(base), future: [], turning: null };
}

/** `turn` names what is being turned, as long as it is; null for a change that is one by itself. */
export function turned(history: LookHistory, look: Look, turn: string | null): LookHistory {
  const { past, present } = history;
  if (look === present.look) return history;
  if (turn !== null && turn === history.turning)
    return { ...history, present: { ...present, look }, future: [] };
  const step = { look, base: present.base, since: present.since + 1 };
  return { past: [...past, present], present: step, future: [], turning: turn };
}

/** The knob was let go. */
export function letGo(history: LookHistory): LookHistory {
  return history.turning === null ? history : { ...history, turning: null };
}

export function stepBack({ past, present, future }: LookHistory): LookHistory {
  const before = past.at(-1);
  if (before === undefined) return { past, present, future, turning: null };
  return { past: past.slice(0, -1), present: before, future: [present, ...future], turning: null };
}

export function stepForth({ past, present, future }: LookHistory): LookHistory {
  const [next, ...others] = future;
  if (next === undefined) return { past, present, future, turning: null };
  return { past: [...past, present], present: next, future: others, turning: null };
}
