import { useCallback, useState } from 'react';
import type { Look as KeptLook } from '../../../contract/index.ts';

export interface Compared {
  /** None, one that waits for another, or the two that are seen side by side. */
  readonly looks: readonly KeptLook[];
  readonly toggle: (look: KeptLook) => void;
  readonly close: () => void;
}

/** Which two versions are seen side by side. */
export function useCompare(): Compared {
  const [looks, setLooks] = useState<readonly KeptLook[]>([]);
  const toggle = useCallback((look: KeptLook) => setLooks((held) => chosenOf(held, look)), []);
  const close = useCallback(() => setLooks([]), []);
  return { looks, toggle, close };
}

/** A version that is chosen already is let go; of three the first is. */
export function chosenOf(held: readonly KeptLook[], look: KeptLook): readonly KeptLook[] {
  const others = held.filter(({ id }) => id !== look.id);
  return others.length < held.length ? others : [...others, look].slice(-2);
}
