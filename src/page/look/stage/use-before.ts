import { useCallback, useMemo, useState } from 'react';
import type { Look as KeptLook } from '../../../contract/index.ts';
import { activeParts, type Look, lookHash } from '../../../look/index.ts';
import { type Base, baseOf } from '../state/base.ts';

export interface Before {
  /** What is compared with; null: nothing is. */
  readonly base: Base | null;
  /** Its look as it is shown: cut and turned as the look at hand, so that both sides of the edge show one place. */
  readonly look: Look | null;
  /** Whether it is cut or turned in another way by itself. */
  readonly isRecut: boolean;
  readonly isLocal: boolean;
  /** So shown it is the look at hand. */
  readonly isSame: boolean;
  readonly toggle: () => void;
  readonly show: (look: KeptLook) => void;
}

/** The look left of the edge: what was opened or saved last, or a version out of the list. */
export function useBefore(base: Base, now: Look): Before {
  const [chosen, setChosen] = useState<Base | 'base' | null>(null);
  const held = chosen === 'base' ? base : chosen;
  const { geometry } = now;
  const shown = useMemo(() => (held === null ? null : recut(held.document, geometry)), [held, geometry]);
  const toggle = useCallback(() => setChosen((shownNow) => (shownNow === null ? 'base' : null)), []);
  const show = useCallback((look: KeptLook) => setChosen(baseOf(look)), []);
  return {
    base: held,
    look: shown,
    isRecut: held !== null && shown !== null && lookHash(shown) !== lookHash(held.document),
    isLocal: shown !== null && activeParts(shown).length > 0,
    isSame: shown !== null && lookHash(shown) === lookHash(now),
    toggle,
    show,
  };
}

/** A look with the cut and the turn of another. */
export function recut(look: Look, geometry: Look['geometry']): Look {
  return { ...look, geometry };
}
