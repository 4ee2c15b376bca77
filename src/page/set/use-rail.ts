import { useMemo, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { type Burst, burstsOf, type CounterGap, counterGaps } from '../state/index.ts';
import { layoutRail, type RailLayout, type RailPlace } from '../viewport/index.ts';
import { type Lanes, lanesOf } from './lanes.ts';
import { asRailHad } from './rail-alike.ts';
import { isInTrouble, type RailSpot, railItems, spotInBurst, spotOf } from './rail-items.ts';
import type { RailMeasures } from './rail-measures.ts';

/** One thing to draw on the rail. */
export type RailThing =
  | {
      readonly kind: 'frame';
      readonly id: string;
      readonly inBurst: boolean;
      /** It stands by itself or is the first of its burst. */
      readonly leads: boolean;
      readonly spot: RailSpot;
    }
  | { readonly kind: 'burst'; readonly burst: Burst; readonly spot: RailSpot }
  | { readonly kind: 'gap'; readonly gap: CounterGap; readonly spot: RailSpot };

export interface Rail {
  readonly layout: RailLayout;
  readonly things: readonly RailThing[];
}

/** The frames as the rail last had them, as long as nothing on it moves. */
export function useStanding(frames: readonly Frame[]): readonly Frame[] {
  const had = useRef(frames);
  had.current = asRailHad(had.current, frames);
  return had.current;
}

/** The lanes that the frames need, the same object as long as they are the same. */
export function useLanes(frames: readonly Frame[], lanesMax: number): Lanes {
  const lanes = useMemo(() => lanesOf(frames, lanesMax), [frames, lanesMax]);
  const key = JSON.stringify(lanes);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same names are the same lanes
  return useMemo(() => lanes, [key]);
}

/** Everything that stands on the rail and where. Changes with the frames' order and states, not with their bytes. */
export function useRail(frames: readonly Frame[], lanes: Lanes, measures: RailMeasures): Rail {
  return useMemo(() => {
    const gaps = counterGaps(frames);
    const bursts = burstsOf(frames, isInTrouble);
    const layout = layoutRail(railItems(frames, bursts, gaps, lanes, measures));
    const gapById = new Map(gaps.map((gap) => [gap.id, gap]));
    const burstById = new Map(bursts.map((burst) => [burst.id, burst]));
    const thingsAt = (place: RailPlace): RailThing[] => {
      const spot = spotOf(place, measures);
      const gap = gapById.get(place.id);
      if (gap !== undefined) return [{ kind: 'gap', gap, spot }];
      const burst = burstById.get(place.id);
      if (burst === undefined) return [{ kind: 'frame', id: place.id, inBurst: false, leads: true, spot }];
      const inside = burst.frames.map(
        ({ id }, index): RailThing => ({
          kind: 'frame',
          id,
          inBurst: true,
          leads: index === 0,
          spot: spotInBurst(index, spot, measures),
        }),
      );
      return [{ kind: 'burst', burst, spot }, ...inside];
    };
    return { layout, things: layout.places.flatMap(thingsAt) };
  }, [frames, lanes, measures]);
}
