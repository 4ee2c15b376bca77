import { useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { PageState } from '../state/index.ts';
import type { useHand } from './use-hand.ts';

interface Compared {
  /** One to four that are looked at closely; none while the sheet is seen. */
  readonly frames: readonly Frame[];
  readonly look: (of: readonly string[]) => void;
  /** From one that is looked at alone to its neighbour on the sheet; null while it is not alone. */
  readonly beside: ((by: -1 | 1) => void) | null;
  readonly close: () => void;
}

const framesMax = 4;

/** What is looked at closely, over the sheet on which `lying` lie. */
export function useCompared(
  { frames: known }: Pick<PageState, 'frames'>,
  lying: readonly string[],
  tell: ReturnType<typeof useHand>['tell'],
): Compared {
  const [ids, setIds] = useState<readonly string[]>([]);
  // One that is looked at alone gives way to its neighbour, and that one is in hand then.
  const beside = (by: -1 | 1): void => {
    const next = lying[lying.indexOf(ids[0] ?? '') + by];
    if (next === undefined) return;
    setIds([next]);
    tell({ type: 'take', id: next });
  };
  return {
    frames: ids.flatMap((id): Frame[] => [known.byId.get(id)].filter((frame) => frame !== undefined)),
    look: (of) => {
      if (of.length >= 1 && of.length <= framesMax) setIds(of);
    },
    beside: ids.length === 1 ? beside : null,
    close: () => setIds([]),
  };
}
