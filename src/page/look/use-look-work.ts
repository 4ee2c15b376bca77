import { useCallback, useEffect, useRef, useState } from 'react';
import { LookWork } from './off-thread/look-work.ts';

export interface LookWorks {
  /** Follows a knob, and reads scenes. */
  readonly now: LookWork | null;
  /** Compiles what has come to rest, which may take a second: a knob that is turned again does not wait for it. */
  readonly rest: LookWork | null;
  /** A second one, so that what is compared never waits behind what is turned; opened when it is first wanted. */
  readonly before: () => LookWork;
}

export function useLookWork(): LookWorks {
  const [now, setNow] = useState<LookWork | null>(null);
  const [rest, setRest] = useState<LookWork | null>(null);
  const second = useRef<LookWork | null>(null);
  useEffect(() => {
    const [work, slow] = [new LookWork(), new LookWork()];
    setNow(work);
    setRest(slow);
    return () => {
      work.close();
      slow.close();
      second.current?.close();
      second.current = null;
    };
  }, []);
  const before = useCallback(() => {
    second.current ??= new LookWork();
    return second.current;
  }, []);
  return { now, rest, before };
}
