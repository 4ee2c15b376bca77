import { useEffect, useState } from 'react';
import type { Frame, FrameReadings } from '../../contract/index.ts';
import { fetchReadings } from '../link/index.ts';

export interface Readings {
  /** Of the frame that is shown; null until they are here. */
  readonly readings: FrameReadings | null;
  /** They were asked for and did not come. */
  readonly lost: boolean;
}

/** A burst of events about one frame is one question. */
const settleMs = 120;
const retryMs = 2_000;

/** The readings of a frame while somebody looks at them, asked for again whenever the frame has changed. */
export function useReadings(frame: Frame | null, wanted: boolean): Readings {
  const [held, setHeld] = useState<FrameReadings | null>(null);
  const [lost, setLost] = useState(false);
  const id = wanted ? (frame?.id ?? null) : null;
  const version = frame?.version ?? 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another version of the frame is why they are asked for again
  useEffect(() => {
    if (id === null) return;
    const given = new AbortController();
    let timer = setTimeout(ask, settleMs);
    function ask(): void {
      fetchReadings(id ?? '', given.signal).then(
        (readings) => {
          if (given.signal.aborted) return;
          setHeld(readings);
          setLost(false);
        },
        () => {
          if (given.signal.aborted) return;
          setLost(true);
          timer = setTimeout(ask, retryMs);
        },
      );
    }
    return () => {
      clearTimeout(timer);
      given.abort();
    };
  }, [id, version]);
  return { readings: held !== null && held.frame === frame?.id ? held : null, lost };
}
