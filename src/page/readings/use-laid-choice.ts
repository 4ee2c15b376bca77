import { useCallback, useState } from 'react';
import { firstLaid, ghostWays, type LaidChoice } from './laid.ts';

export interface LaidSwitch {
  readonly choice: LaidChoice;
  readonly change: (change: Partial<LaidChoice>) => void;
  /** What a key does. */
  readonly lay: (what: 'on' | 'ghost') => void;
}

/** How the operator wants what lies over the picture; it outlives the frames. */
export function useLaidChoice(): LaidSwitch {
  const [choice, setChoice] = useState<LaidChoice>(firstLaid);
  const change = useCallback(
    (part: Partial<LaidChoice>) => setChoice((before) => ({ ...before, ...part })),
    [],
  );
  const lay = useCallback(
    (what: 'on' | 'ghost') =>
      setChoice((before) =>
        what === 'on'
          ? { ...before, on: !before.on }
          : { ...before, on: true, ghost: before.ghost === ghostWays[0] ? ghostWays[1] : ghostWays[0] },
      ),
    [],
  );
  return { choice, change, lay };
}
