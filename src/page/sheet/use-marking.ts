import { useCallback, useEffect, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { Mark } from '../../facts/index.ts';
import { contactLabels, framesPhrase } from '../../words/index.ts';
import type { Call } from '../choices/use-call.ts';
import { isUnknown, markFrames } from '../link/index.ts';
import type { PageState } from '../state/index.ts';
import { leftOf, markToSend, type OpenMark, withoutFrames } from './state/open-marks.ts';

export interface Marking {
  /** How far it is with many, what somebody else had marked meanwhile, or what was lost on the way; empty for nothing. */
  readonly said: string;
  readonly mark: (chosen: Mark, of: readonly Frame[]) => void;
}

/** So many are done at a blink; of more it is said how far they are. */
export const toldFrom = 500;

/**
 * Marks frames as they are shown; those that somebody else marked while one chose are left, and said. A call without an answer
 * stays open until the frames show what became of it: when the line is back, or the mark comes after all.
 */
export function useMarking(state: PageState, { run, forget }: Call): Marking {
  const [said, setSaid] = useState('');
  const [open, setOpen] = useState<readonly OpenMark[]>([]);
  // The line was cut since: when it is back, the frames are read anew and are as they are.
  const wasLost = useRef(false);
  const { frames, link, allFrames } = state;
  useEffect(() => {
    if (open.length === 0) return;
    if (link.state === 'lost') wasLost.current = true;
    const isBack = wasLost.current && link.state === 'live' && allFrames;
    const unknown = open.filter((each) => !isBack && leftOf(each, frames.byId) > 0);
    if (unknown.length === open.length) return;
    const left = open.reduce((sum, each) => sum + leftOf(each, frames.byId), 0);
    setOpen(unknown);
    if (unknown.length > 0) return;
    forget(contactLabels.mark);
    if (left > 0) setSaid(contactLabels.markLost(framesPhrase(left)));
  }, [open, frames, link, allFrames, forget]);
  const mark = useCallback(
    (chosen: Mark, of: readonly Frame[]) => {
      if (of.length === 0) return;
      const ids = of.map(({ id }) => id);
      const wanted = markToSend(chosen, of, open);
      setSaid('');
      const tell = (done: number): void =>
        setSaid(done < of.length ? contactLabels.markingOn(done, of.length) : '');
      if (of.length > toldFrom) tell(0);
      void run(async () => {
        try {
          const left = await markFrames(of, wanted, of.length > toldFrom ? tell : undefined);
          setOpen((before) => withoutFrames(before, ids));
          setSaid(left.length === 0 ? '' : contactLabels.markedMeanwhile(left));
        } catch (thrown) {
          setSaid('');
          wasLost.current = false;
          if (isUnknown(thrown)) setOpen((before) => [...withoutFrames(before, ids), { wanted, ids }]);
          throw thrown;
        }
      }, contactLabels.mark);
    },
    [run, open],
  );
  return { said, mark };
}
