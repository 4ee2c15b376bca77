import { useCallback, useEffect, useState } from 'react';
import type { SharePoint } from '../../facts/index.ts';

/** What the operator is about to say of the frame that is shown. */
export interface Remarking {
  /** The next click on the picture marks the place. */
  readonly isPicking: boolean;
  /** What is being written: about a place of the original, or about all of it; null for nothing. */
  readonly draft: { readonly point: SharePoint | null } | null;
  /** The remark whose pin was chosen. */
  readonly chosen: string | null;
  readonly pick: () => void;
  readonly write: (point: SharePoint | null) => void;
  readonly choose: (id: string | null) => void;
  /** Nothing is picked or written any more. */
  readonly leave: () => void;
}

export function useRemarking(frameId: string | null): Remarking {
  const [isPicking, setPicking] = useState(false);
  const [draft, setDraft] = useState<Remarking['draft']>(null);
  const [chosen, choose] = useState<string | null>(null);
  const leave = useCallback(() => {
    setPicking(false);
    setDraft(null);
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is about one frame is about no other
  useEffect(() => {
    leave();
    choose(null);
  }, [frameId]);
  const pick = useCallback(() => setPicking(true), []);
  const write = useCallback((point: SharePoint | null) => {
    setPicking(false);
    setDraft({ point });
  }, []);
  return { isPicking, draft, chosen, pick, write, choose, leave };
}
