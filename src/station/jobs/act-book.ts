import type { EpochMs } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type Act, type Choice, takeAct, touchedBy, withAct } from '../../job/index.ts';

/**
 * What people did since the start, so that it can be taken back. The journal holds what they chose and what they took back;
 * only the list of what could still be taken back ends with the run.
 */
export class ActBook {
  readonly #now: () => EpochMs;
  readonly #newId: () => string;
  #acts: readonly Act[] = [];

  constructor(now: () => EpochMs, newId: () => string) {
    this.#now = now;
    this.#newId = newId;
  }

  /** The newest first. */
  all(): readonly Act[] {
    return [...this.#acts].reverse();
  }

  note(by: string, what: Finding, choices: readonly Choice[], inverse: readonly Choice[]): void {
    if (choices.length === 0) return;
    const touched = [...new Set([...choices, ...inverse].map(touchedBy))];
    const act = { id: this.#newId(), atMs: this.#now(), by, what, touched, inverse };
    this.#acts = withAct(this.#acts, act);
  }

  /** The act that would be taken back. Throws as {@link takeAct} does. */
  find(id: string | undefined): Act {
    return takeAct(this.#acts, id).act;
  }

  forget(id: string): void {
    this.#acts = this.#acts.filter((act) => act.id !== id);
  }
}
