import { type EpochMs, SetsideError } from '../../base/index.ts';
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
  /** Taken back since the last thing that was done, the newest last. */
  #takenBack: readonly Act[] = [];

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
    const act = { id: this.#newId(), atMs: this.#now(), by, what, touched, choices: [...choices], inverse };
    this.#acts = withAct(this.#acts, act);
    // What was taken back before was taken back from another state than the one there is now.
    this.#takenBack = [];
  }

  /** The newest act that touched this, or a part of it; null where none did. */
  lastAbout(key: string): Act | null {
    const isAbout = (touched: string): boolean => touched === key || touched.startsWith(`${key} `);
    return this.#acts.findLast(({ touched }) => touched.some(isAbout)) ?? null;
  }

  /** The act that would be taken back. Throws as {@link takeAct} does. */
  find(id: string | undefined): Act {
    return takeAct(this.#acts, id).act;
  }

  /** It was taken back; as long as nothing else is done it can be put back. */
  takenBack(act: Act): void {
    this.#acts = this.#acts.filter(({ id }) => id !== act.id);
    this.#takenBack = withAct(this.#takenBack, act);
  }

  /** Where it led to is no more, so it is nothing that could be taken back. */
  forget(act: Act): void {
    this.#acts = this.#acts.filter(({ id }) => id !== act.id);
  }

  /** The act that would be put back: the one that was taken back last. Throws `nothing-to-put-back`. */
  findTakenBack(): Act {
    const act = this.#takenBack.at(-1);
    if (act === undefined) throw new SetsideError('nothing-to-put-back', 'nothing was taken back last');
    return act;
  }

  /** It was done again, and can be taken back once more. */
  putBack(act: Act): void {
    this.#takenBack = this.#takenBack.filter(({ id }) => id !== act.id);
    this.#acts = withAct(this.#acts, act);
  }
}
