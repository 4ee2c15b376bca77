import { useCallback, useEffect, useState } from 'react';
import type { SharePoint } from '../../facts/index.ts';

/** Two points that are being marked on a frame. */
export interface Measuring {
  /** The next click on the picture marks one. */
  readonly on: boolean;
  /** None to two of them. */
  readonly points: readonly SharePoint[];
  readonly begin: () => void;
  readonly mark: (at: SharePoint) => void;
  /** They are forgotten. */
  readonly leave: () => void;
}

export function useMeasuring(frameId: string | null): Measuring {
  const [on, setOn] = useState(false);
  const [points, setPoints] = useState<readonly SharePoint[]>([]);
  const leave = useCallback(() => {
    setOn(false);
    setPoints([]);
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: points of one frame are none of another
  useEffect(leave, [frameId]);
  const begin = useCallback(() => {
    setPoints([]);
    setOn(true);
  }, []);
  const mark = useCallback(
    (at: SharePoint) => {
      setPoints((before) => [...before, at]);
      setOn(points.length === 0);
    },
    [points],
  );
  return { on, points, begin, mark, leave };
}
