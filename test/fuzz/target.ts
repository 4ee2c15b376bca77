/** Something that takes bytes from strangers, with what must hold whatever they are. */
export interface FuzzTarget {
  readonly name: string;
  /** Inputs to begin with: the more of the code they reach, the better. */
  seeds(): readonly Uint8Array[];
  /** Runs of bytes that mean something to the code: chance would not find them. */
  readonly words: readonly Uint8Array[];
  readonly inputBytesMax: number;
  /** Throws, or rejects, where an invariant is broken. */
  run(input: Uint8Array): void | Promise<void>;
}

/** What a run says when an invariant is broken. */
export function insist(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(what);
}
