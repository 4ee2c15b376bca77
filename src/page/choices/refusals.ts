/** What was refused and is not settled: by what was called, with the words for it. */
export interface Refusals {
  /** Counts calls begun and refusals said, so that it is known which of two came first. */
  readonly moment: number;
  readonly said: ReadonlyMap<string, { readonly words: string; readonly moment: number }>;
}

export const noRefusals: Refusals = { moment: 0, said: new Map() };

/** A call begins; it is known later by the moment it began at. */
export function begun({ moment, said }: Refusals): Refusals {
  return { moment: moment + 1, said };
}

export function refused({ moment, said }: Refusals, what: string, words: string): Refusals {
  const at = moment + 1;
  return { moment: at, said: new Map([...said, [what, { words, moment: at }]]) };
}

/**
 * A call was taken that began at a moment. It settles an earlier refusal of the same, and nothing else: not one of another thing, and
 * not one that was said while it was under way, which nobody has read when it is answered.
 */
export function taken(refusals: Refusals, what: string, began: number): Refusals {
  const own = refusals.said.get(what);
  return own === undefined || own.moment > began ? refusals : forgotten(refusals, what);
}

/** What became of it is known by now. */
export function forgotten({ moment, said }: Refusals, what: string): Refusals {
  const left = new Map(said);
  left.delete(what);
  return { moment, said: left };
}

/** All that is refused, each with what it is about where that has a name. */
export function refusalWords({ said }: Refusals): string {
  return [...said].map(([what, { words }]) => (what === '' ? words : `${what}: ${words}`)).join(' ');
}
