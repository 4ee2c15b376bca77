import { useEffect, useState } from 'react';
import type { Station } from '../../contract/index.ts';
import { cameraAddresses } from '../../words/index.ts';
import { fetchLine } from '../link/index.ts';

/**
 * The station's address to enter on this camera, where it has several: null where the line check knows of none, undefined
 * until it has answered, so that nobody types the other one meanwhile.
 */
export function useEnter(station: Station | null, name: string): string | null | undefined {
  const isAsked = station !== null && cameraAddresses(station).length > 1;
  const [answer, setAnswer] = useState<{ readonly name: string; readonly enter: string | null } | null>(null);
  useEffect(() => {
    if (!isAsked) return;
    const stop = new AbortController();
    fetchLine(stop.signal).then(
      ({ cameras }) =>
        setAnswer({ name, enter: cameras.find((camera) => camera.name === name)?.enter ?? null }),
      () => {
        // The sheet names every address then, the first as the station lists them.
        if (!stop.signal.aborted) setAnswer({ name, enter: null });
      },
    );
    return () => stop.abort();
  }, [isAsked, name]);
  if (!isAsked) return null;
  return answer?.name === name ? answer.enter : undefined;
}
