import {
  type Dispatch,
  type ReactNode,
  useCallback,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { Frame } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import { counterGaps, type PageAction, type PageState } from '../state/index.ts';
import { layoutRail } from '../viewport/index.ts';
import { RailAxis } from './rail-axis.tsx';
import { RailFrame } from './rail-frame.tsx';
import { GapNote } from './rail-gap.tsx';
import { measuresFor, railItems } from './rail-items.ts';
import { useNarrow } from './use-media.ts';

interface ArrivalRailProps {
  readonly state: PageState;
  /** In order of the day. */
  readonly frames: readonly Frame[];
  readonly shownId: string | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** Drawn beyond the visible part, so that scrolling finds pictures already there. */
const overscanCssPx = 600;

/** Time running down, one lane per camera, each frame at the moment of its shutter. */
export function ArrivalRail({ state, frames, shownId, dispatch }: ArrivalRailProps): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const measures = measuresFor(useNarrow());
  const cameras = useMemo(() => [...new Set(frames.map((frame) => frame.camera))].sort(), [frames]);
  const gaps = useMemo(() => counterGaps(frames), [frames]);
  const layout = useMemo(
    () => layoutRail(railItems(frames, gaps, cameras, measures)),
    [frames, gaps, cameras, measures],
  );
  const seen = useSeenPart(scroller);
  useFollow(scroller, state.chosen === null, shownId, layout.heightCssPx);
  const byId = state.frames.byId;
  const inSight = layout.places.filter(
    (place) =>
      place.id === shownId ||
      (place.topCssPx + place.heightCssPx > seen.from - overscanCssPx &&
        place.topCssPx < seen.to + overscanCssPx),
  );
  const lanes = Math.min(Math.max(1, cameras.length), measures.lanesMax);
  const laneLeft = (lane: number): number =>
    measures.axisCssPx + lane * (measures.laneCssPx + measures.betweenLanesCssPx);

  return (
    <nav className="rail" aria-label={pageLabels.arrivals} data-empty={frames.length === 0}>
      <div className="rail-scroll" ref={scroller} onScroll={seen.look}>
        <div className="rail-length" style={{ height: layout.heightCssPx, width: laneLeft(lanes) }}>
          {layout.places.length === 0 ? null : (
            <RailAxis layout={layout} measures={measures} laneLeft={laneLeft} />
          )}
          {inSight.map((place) => {
            const frame = byId.get(place.id);
            const gap = gaps.find((one) => one.id === place.id);
            const spot = {
              top: place.topCssPx,
              left: laneLeft(place.lane),
              width: measures.laneCssPx,
              height: place.heightCssPx,
            };
            if (gap !== undefined) return <GapNote key={place.id} gap={gap} spot={spot} />;
            if (frame === undefined) return null;
            return (
              <RailFrame
                key={place.id}
                frame={frame}
                spot={spot}
                measures={measures}
                shown={place.id === shownId}
                onChoose={() => dispatch({ type: 'choose', id: place.id })}
              />
            );
          })}
        </div>
      </div>
      {state.chosen === null ? null : (
        <button type="button" className="to-newest" onClick={() => dispatch({ type: 'to-newest' })}>
          {pageLabels.newest}
        </button>
      )}
    </nav>
  );
}

interface SeenPart {
  readonly from: number;
  readonly to: number;
  readonly look: () => void;
}

/** The part of the rail in sight, CSS pixels of its length. */
function useSeenPart(scroller: { readonly current: HTMLElement | null }): SeenPart {
  const [part, setPart] = useState({ from: 0, to: 0 });
  const look = useCallback(() => {
    if (scroller.current === null) return;
    const { scrollTop, clientHeight } = scroller.current;
    setPart({ from: scrollTop, to: scrollTop + clientHeight });
  }, [scroller]);
  useLayoutEffect(() => {
    look();
    addEventListener('resize', look);
    return () => removeEventListener('resize', look);
  }, [look]);
  return { ...part, look };
}

/** Keeps the newest in sight while the page follows it, and otherwise the frame that is shown. */
function useFollow(
  scroller: { readonly current: HTMLElement | null },
  following: boolean,
  shownId: string | null,
  heightCssPx: number,
): void {
  useLayoutEffect(() => {
    const element = scroller.current;
    if (element === null || heightCssPx === 0) return;
    if (following) element.scrollTop = element.scrollHeight;
  }, [scroller, following, heightCssPx]);
  useLayoutEffect(() => {
    if (following || shownId === null) return;
    const shown = scroller.current?.querySelector('[aria-current="true"]');
    shown?.scrollIntoView({ block: 'nearest' });
    // The focus goes along where it was on the rail already, so that Tab goes on from the frame that is shown.
    const focused = document.activeElement;
    if (shown instanceof HTMLElement && focused?.closest('.rail-frame') != null)
      shown.focus({ preventScroll: true });
  }, [scroller, following, shownId]);
}
