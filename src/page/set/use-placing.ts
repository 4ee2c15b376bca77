import { useMemo } from 'react';
import { type Placing, placingOf } from '../readings/geometry/placing.ts';
import type { Presentation } from './use-presentation.ts';

/** Of no picture: the shape of most. */
const usual = { widthPx: 3, heightPx: 2 };

/** Where the look of what is shown put it, the same as long as that is; null where it was not told. */
export function usePlacing(presentation: Presentation | null): Placing | null {
  const picture = presentation?.frame.picture ?? null;
  const { widthPx: width, heightPx: height } = presentation?.picture?.full ?? usual;
  return useMemo(() => placingOf(picture ?? { state: 'none' }, { width, height }), [picture, width, height]);
}

/** Width by height of the whole original. */
export function shapeOf(placing: Placing | null): number {
  return placing === null ? usual.widthPx / usual.heightPx : placing.original.width / placing.original.height;
}
