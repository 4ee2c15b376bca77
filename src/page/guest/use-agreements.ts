import { useEffect, useState } from 'react';
import type { Agreement } from '../../contract/index.ts';
import { fetchAgreements } from '../link/index.ts';

/** Who agreed to which shot of a job; asked for anew with every `seen`, so that what is shown is never older than what was heard. */
export function useAgreements(job: string | null, isLive: boolean, seen: number): readonly Agreement[] {
  const [agreements, setAgreements] = useState<readonly Agreement[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was heard is a reason to ask
  useEffect(() => {
    if (job === null || !isLive) return undefined;
    const stop = new AbortController();
    // What is missed here comes with the next event, or with the station.
    fetchAgreements(job, stop.signal).then(setAgreements, () => undefined);
    return () => stop.abort();
  }, [job, isLive, seen]);
  return agreements;
}
