import { useCallback, useEffect, useRef, useState } from 'react';
import { LookWork } from './work/look-work.ts';

export interface LookWorks {
  readonly now: LookWork | null;
  /** A second one, so that what is compared never waits behind what is turned; opened when it is first wanted. */
  readonly before: () => LookWork;
}

export function useLookWork(): LookWorks {
  const [now, setNow] = useState<LookWork | null>(null);
  const second = useRef<LookWork | null>(null);
  useEffect(() => {
    const work = new LookWork();
    setNow(work);
    return () => {
      work.close();
      second.current?.close();
      second.current = null;
    };
  }, []);
  const before = useCallback(() => {
    second.current ??= new LookWork();
    return second.current;
  }, []);
  return { now, before };
}
