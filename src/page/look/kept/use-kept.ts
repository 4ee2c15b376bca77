import { useCallback, useEffect, useState } from 'react';
import type { Look as KeptLook } from '../../../contract/index.ts';
import { fetchLooks, fetchLookVersions } from '../../link/index.ts';

export interface Kept {
  /** The newest of each name; null while they are not here. */
  readonly looks: readonly KeptLook[] | null;
  /** Of the name that is looked at, the newest first. */
  readonly versions: readonly KeptLook[];
  readonly choose: (id: string) => void;
  readonly reload: (id?: string) => void;
}

/** The looks that are kept, and the versions of one of them. */
export function useKept(first: string | null): Kept {
  const [looks, setLooks] = useState<readonly KeptLook[] | null>(null);
  const [versions, setVersions] = useState<readonly KeptLook[]>([]);
  const choose = useCallback((id: string) => {
    fetchLookVersions(id).then(setVersions, () => undefined);
  }, []);
  const reload = useCallback(
    (id?: string) => {
      fetchLooks().then(setLooks, () => undefined);
      if (id !== undefined) choose(id);
    },
    [choose],
  );
  useEffect(() => reload(first ?? undefined), [reload, first]);
  return { looks, versions, choose, reload };
}
