import { useCallback, useState } from 'react';
import { contactLabels } from '../../words/index.ts';
import type { Call } from '../choices/use-call.ts';
import { takeFramesIn } from '../link/index.ts';
import { toldFrom } from './use-marking.ts';

export interface Moving {
  /** How far it is with many; empty for nothing. */
  readonly said: string;
  readonly move: (ids: readonly string[], shot: string | null) => void;
}

/** Moves frames to another shot of their job, or to none. */
export function useMoving(job: string, run: Call['run']): Moving {
  const [said, setSaid] = useState('');
  const move = useCallback(
    (ids: readonly string[], shot: string | null) => {
      const tell = (done: number): void =>
        setSaid(done < ids.length ? contactLabels.movingOn(done, ids.length) : '');
      if (ids.length > toldFrom) tell(0);
      const take = () => takeFramesIn(job, ids, shot, ids.length > toldFrom ? tell : undefined);
      void run(take, contactLabels.moveTo).then(() => setSaid(''));
    },
    [job, run],
  );
  return { said, move };
}
