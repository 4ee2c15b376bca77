import { type EpochMs, SetsideError } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type Act, type Choice, takeAct, touchedBy, withAct } from '../../job/index.ts';

/** Who did something; a name alone where no person did. */
export interface Doer {
  readonly name: string;
  readonly screen?: string;
}

/** As many as are told at once: each holds all choices of its act. */
export const undoneMax = 60;

/** An act that was taken back and not put back. */
export interface UndoneAct {
  readonly act: Act;
  readonly atMs: EpochMs;
  /** Who took it back. */
  readonly by: string;
}

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
  /** All that were taken back since the start, the newest last: it is still told who had done them. */
  #undone: readonly UndoneAct[] = [];

  constructor(now: () => EpochMs, newId: () => string) {
    this.#now = now;
    this.#newId = newId;
  }

  /** The newest first. */
  all(): readonly Act[] {
    return [...this.#acts].reverse();
  }

  note(by: Doer, what: Finding, choices: readonly Choice[], inverse: readonly Choice[]): void {
    if (choices.length === 0) return;
    this.#acts = withAct(this.#acts, this.#act(by, null, what, choices, inverse));
    // What was taken back before was taken back from another state than the one there is now.
    this.#takenBack = [];
  }

  /**
   * One part of an act that comes in several calls, known by `whole`: all parts of one person are one act, where the first
   * stands. `what` tells it of so many things that were touched.
   */
  notePart(
    by: Doer,
    whole: string,
    what: (count: number) => Finding,
    choices: readonly Choice[],
    inverse: readonly Choice[],
  ): void {
    if (choices.length === 0) return;
    const before = this.#acts.find((act) => act.whole === whole && act.by === by.name);
    const own = touchedOf(choices, inverse);
    const touched = before === undefined ? own : [...new Set([...before.touched, ...own])];
    const part = this.#act(by, whole, what(touched.length), choices, inverse);
    this.#takenBack = [];
    if (before === undefined) {
      this.#acts = withAct(this.#acts, part);
      return;
    }
    const both: Act = {
      ...before,
      what: part.what,
      touched,
      choices: [...before.choices, ...part.choices],
      // The last part goes first.
      inverse: [...part.inverse, ...before.inverse],
    };
    this.#acts = this.#acts.map((act) => (act === before ? both : act));
  }

  /** Whether a part of this act was taken back: then no more parts are made. */
  isTakenBack(by: Doer, whole: string): boolean {
    return this.#takenBack.some((act) => act.whole === whole && act.by === by.name);
  }

  #act(
    { name: by, screen }: Doer,
    whole: string | null,
    what: Finding,
    choices: readonly Choice[],
    inverse: readonly Choice[],
  ): Act {
    const touched = touchedOf(choices, inverse);
    return {
      id: this.#newId(),
      atMs: this.#now(),
      by,
      screen: screen ?? null,
      whole,
      what,
      touched,
      choices: [...choices],
      inverse,
    };
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
  takenBack(act: Act, { name: by }: Pick<Doer, 'name'>): void {
    this.#acts = this.#acts.filter(({ id }) => id !== act.id);
    this.#takenBack = withAct(this.#takenBack, act);
    this.#undone = [...this.#undone, { act, atMs: this.#now(), by }].slice(-undoneMax);
  }

  /** What was taken back since the start, the newest last; of very many the last ones. */
  undone(): readonly UndoneAct[] {
    return this.#undone;
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
    this.#undone = this.#undone.filter((each) => each.act.id !== act.id);
    this.#acts = withAct(this.#acts, act);
  }
}

function touchedOf(...choices: readonly (readonly Choice[])[]): string[] {
  return [...new Set(choices.flat().map(touchedBy))];
}
