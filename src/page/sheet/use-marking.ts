import { useCallback, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { Mark } from '../../facts/index.ts';
import { contactLabels } from '../../words/index.ts';
import type { Call } from '../choices/use-call.ts';
import { markFrames } from '../link/index.ts';

export interface Marking {
  /** Which frames somebody else had marked meanwhile, of the last that were marked here; empty for none. */
  readonly meanwhile: string;
  readonly mark: (chosen: Mark, of: readonly Frame[]) => void;
}

/** Marks frames as they are shown; those that somebody else marked while one chose are left, and said. */
export function useMarking(run: Call['run']): Marking {
  const [meanwhile, setMeanwhile] = useState('');
  const mark = useCallback(
    (chosen: Mark, of: readonly Frame[]) => {
      if (of.length === 0) return;
      // A mark that all of them have already is taken away, as on the Set page.
      const next = of.every((frame) => frame.mark === chosen) ? 'none' : chosen;
      setMeanwhile('');
      void run(async () => {
        const left = await markFrames(of, next);
        setMeanwhile(left.length === 0 ? '' : contactLabels.markedMeanwhile(left));
      });
    },
    [run],
  );
  return { meanwhile, mark };
}
