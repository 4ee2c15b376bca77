import { useEffect, useState } from 'react';
import type { Station } from '../../contract/index.ts';
import { cameraAddresses, type SheetWayIn } from '../../words/index.ts';
import { fetchLine } from '../link/index.ts';

/**
 * What the line check knows of the way from this camera to the station. Where the station has several addresses it is undefined
 * until the check has answered, so that nobody types another one meanwhile; where it has one, the name may come later.
 */
export function useEnter(station: Station | null, name: string): SheetWayIn | undefined {
  const isAsked = station !== null;
  const [answer, setAnswer] = useState<{ readonly name: string; readonly wayIn: SheetWayIn } | null>(null);
  useEffect(() => {
    if (!isAsked) return;
    const stop = new AbortController();
    fetchLine(stop.signal).then(
      ({ cameras, mayEnter, mdns }) => {
        const enter = cameras.find((camera) => camera.name === name)?.enter ?? null;
        setAnswer({ name, wayIn: { enter, mayEnter, mdns } });
      },
      () => {
        // The sheet names every address then, the first as the station lists them.
        if (!stop.signal.aborted) setAnswer({ name, wayIn: {} });
      },
    );
    return () => stop.abort();
  }, [isAsked, name]);
  if (answer?.name === name) return answer.wayIn;
  return station === null || cameraAddresses(station).length > 1 ? undefined : {};
}
