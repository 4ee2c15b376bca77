import { type Dispatch, type ReactNode, useRef } from 'react';
import type { Frame } from '../../contract/index.ts';
import { pageLabels } from '../../words/index.ts';
import type { PageAction, PageState } from '../state/index.ts';
import { mustNameCamera } from './lanes.ts';
import { RailAxis } from './rail-axis.tsx';
import { BurstHead } from './rail-burst.tsx';
import { RailFlag } from './rail-flag.tsx';
import { RailFrame } from './rail-frame.tsx';
import { GapNote } from './rail-gap.tsx';
import { laneLeft, railWidth } from './rail-items.ts';
import { crowdedLanes, measuresFor, type RailMeasures } from './rail-measures.ts';
import { useFollow } from './use-follow.ts';
import { useMiddling, useNarrow } from './use-media.ts';
import { usePointed } from './use-pointed.ts';
import { type RailThing, useLanes, useRail, useStanding } from './use-rail.ts';
import { useSeenPart } from './use-seen-part.ts';

interface ArrivalRailProps {
  readonly state: PageState;
  /** In order of the day. */
  readonly frames: readonly Frame[];
  readonly shownId: string | null;
  readonly dispatch: Dispatch<PageAction>;
}

/** Time running down, one lane per camera, each frame at the moment of its shutter. */
export function ArrivalRail({ state, frames, shownId, dispatch }: ArrivalRailProps): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const screen = { narrow: useNarrow(), middling: useMiddling() };
  const standing = useStanding(frames);
  const lanesHad = useLanes(standing, measuresFor(screen, 0).lanesMax);
  const { count: lanes } = lanesHad;
  const measures = measuresFor(screen, lanes);
  const { layout, things } = useRail(standing, lanesHad, measures);
  const seen = useSeenPart(scroller);
  const pointed = usePointed(scroller);
  const follow = useFollow(scroller, state.chosen === null, shownId, layout.heightCssPx);
  const byId = state.frames.byId;
  const inSight = things.filter(
    (thing) =>
      (thing.kind === 'frame' && thing.id === shownId) ||
      (thing.spot.top + thing.spot.height > seen.from && thing.spot.top < seen.to),
  );
  const flagged = pointed.at === null ? undefined : byId.get(pointed.at.id);

  const look = (): void => {
    seen.look();
    follow.look();
  };
  const toNewest = (): void => {
    follow.toEnd();
    dispatch({ type: 'to-newest' });
  };

  const draw = (thing: RailThing): ReactNode => {
    if (thing.kind === 'gap') return <GapNote key={thing.gap.id} gap={thing.gap} spot={thing.spot} />;
    if (thing.kind === 'burst') {
      const { burst, spot } = thing;
      return <BurstHead key={burst.id} burst={burst} spot={spot} headCssPx={measures.burstHeadCssPx} />;
    }
    const frame = byId.get(thing.id);
    if (frame === undefined) return null;
    return (
      <RailFrame
        key={thing.id}
        frame={frame}
        spot={thing.spot}
        measures={thing.inBurst ? measures.burst : measures.frame}
        shown={thing.id === shownId}
        cameraSaid={thing.leads && mustNameCamera(frame.camera, lanesHad)}
        dispatch={dispatch}
        point={pointed.point}
      />
    );
  };

  return (
    <nav
      className="rail"
      aria-label={pageLabels.arrivals}
      data-empty={frames.length === 0}
      data-crowded={lanes >= crowdedLanes}
    >
      {lanes > 1 ? <LaneNames cameras={lanesHad.cameras} measures={measures} lanes={lanes} /> : null}
      <div className="rail-scroll" ref={scroller} onScroll={look}>
        <div
          className="rail-length"
          style={{ height: layout.heightCssPx, width: railWidth(lanes, measures) }}
        >
          {layout.places.length === 0 ? null : (
            <RailAxis
              layout={layout}
              measures={measures}
              lanes={lanes}
              fromCssPx={seen.from}
              toCssPx={seen.to}
            />
          )}
          {inSight.map(draw)}
        </div>
      </div>
      {pointed.at === null || flagged === undefined ? null : (
        <RailFlag
          frame={flagged}
          left={pointed.at.left}
          top={pointed.at.top}
          onLeave={() => pointed.point(flagged.id, null)}
        />
      )}
      {state.chosen === null && follow.isAtEnd ? null : (
        <button type="button" className="to-newest" onClick={toNewest}>
          {pageLabels.newest}
        </button>
      )}
    </nav>
  );
}

interface LaneNamesProps {
  readonly cameras: readonly string[];
  readonly measures: RailMeasures;
  readonly lanes: number;
}

/** Which camera's lane is which; cameras beyond the last lane share it. */
function LaneNames({ cameras, measures, lanes }: LaneNamesProps): ReactNode {
  const names = cameras.slice(0, lanes - 1).concat(cameras.slice(lanes - 1).join(', '));
  return (
    <ol className="rail-lanes">
      {names.map((name, lane) => (
        <li key={name} style={{ left: laneLeft(lane, measures), width: measures.laneCssPx }}>
          {name}
        </li>
      ))}
    </ol>
  );
}
