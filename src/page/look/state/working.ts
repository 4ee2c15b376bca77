import { lookHash } from '../../../look/index.ts';
import type { Base } from './base.ts';
import { beginHistory, type LookHistory, type Step, stepOf } from './look-history.ts';

/** The look that is worked on. */
export interface Working {
  readonly history: LookHistory;
  /** Id of the look in force that was opened last by itself; null: the plain one. */
  readonly inForce: string | null;
}

export function beginWork(base: Base): Working {
  return { history: beginHistory(base), inForce: base.id };
}

/** Another look is worked on: one step, and undo goes back to the one before. */
export function opened({ history, inForce }: Working, base: Base): Working {
  const past = [...history.past, history.present];
  return { history: { past, present: stepOf(base), future: [], turning: null }, inForce };
}

/**
 * The look in force, of which the answer has come; `asked` is the step that stood there when it was asked for. Whatever
 * somebody has turned or opened since then stays.
 */
export function openedInForce(working: Working, base: Base, asked: Step): Working {
  if (working.history.present !== asked) return working;
  return { ...opened(working, base), inForce: base.id };
}

/** The look was saved: it is the base from now on, of what can be done again too; undo goes back beyond it all the same. */
export function savedAs({ history, inForce }: Working, base: Base): Working {
  const { past, present, future } = history;
  const ahead = future.map((step) =>
    step.base === present.base ? { ...step, base, since: Math.max(1, step.since - present.since) } : step,
  );
  return { history: { past, present: stepOf(base), future: ahead, turning: null }, inForce };
}

/** Changes since the base; 0 where the look is the base again, whatever lay between. */
export function changesSince({ look, base, since }: Step): number {
  return lookHash(look) === lookHash(base.document) ? 0 : Math.max(1, since);
}
