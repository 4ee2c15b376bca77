import { memo, type ReactNode } from 'react';
import { spanPhrase } from '../../words/index.ts';
import {
  type RailLayout,
  type RailPause,
  type RailPlace,
  type RailStretch,
  ticksOf,
} from '../viewport/index.ts';
import { clockTick, clockTime } from './clock.ts';
import { laneLeft } from './rail-items.ts';
import type { RailMeasures } from './rail-measures.ts';

interface RailAxisProps {
  readonly layout: RailLayout;
  readonly measures: RailMeasures;
  /** Lanes there are; leaders reach into each of them. */
  readonly lanes: number;
  /** The part that is drawn. */
  readonly fromCssPx: number;
  readonly toCssPx: number;
}

/** The ruler may reach this far past the moments it holds. */
const overhangCssPx = 12;
const tickCssPx = 8;
/** Leaders end this far from the ruler, so that a crowd of them can be told apart. */
const leaderKneeCssPx = 6;
/** Edges of a burst's piece of the ruler are at least this far apart, so that it is seen as one. */
const burstCssPxMin = 3;

/** The time axis: a paper ruler at true scale, torn where nothing happened, and a leader to each frame's moment. */
export const RailAxis = memo(function RailAxis(props: RailAxisProps): ReactNode {
  const { layout, measures, lanes, fromCssPx, toCssPx } = props;
  const { rulerCssPx } = measures;
  const labelled = rulerCssPx > 40;
  const isSeen = (from: number, to: number): boolean => to >= fromCssPx && from <= toCssPx;
  return (
    <svg
      className="rail-axis"
      width={laneLeft(lanes, measures)}
      height={layout.heightCssPx}
      role="img"
      aria-label={timeSpan(layout)}
    >
      {layout.pauses
        .filter((pause) => isSeen(pause.fromCssPx, pause.toCssPx))
        .map((pause) => (
          <Pause key={pause.fromCssPx} pause={pause} rulerCssPx={rulerCssPx} labelled={labelled} />
        ))}
      {layout.stretches
        .filter((stretch) => isSeen(stretch.fromCssPx - overhangCssPx, stretch.toCssPx + overhangCssPx))
        .map((stretch) => (
          <Stretch
            key={stretch.fromMs}
            stretch={stretch}
            rulerCssPx={rulerCssPx}
            cssPxPerSecond={layout.cssPxPerSecond}
            labelled={labelled}
          />
        ))}
      {layout.places
        .filter(
          (place) =>
            !place.id.startsWith('gap ') &&
            isSeen(
              Math.min(place.topCssPx, place.momentCssPx),
              Math.max(place.topCssPx + place.heightCssPx, place.untilCssPx),
            ),
        )
        .map((place) => (
          <path key={place.id} className="leader" d={leaderPath(place, measures)} />
        ))}
    </svg>
  );
});

/** From a frame's moment to its picture; from a bracket round a burst's time to the line over its pictures. */
function leaderPath(place: RailPlace, measures: RailMeasures): string {
  const { rulerCssPx, frame, burstHeadCssPx } = measures;
  const { momentCssPx, untilCssPx, topCssPx, heightCssPx } = place;
  const isBurst = untilCssPx > momentCssPx;
  const knee = rulerCssPx + leaderKneeCssPx;
  const end = laneLeft(place.lane, measures);
  const bend = laneLeft(0, measures) - leaderKneeCssPx;
  if (!isBurst) {
    const middle = topCssPx + Math.min(heightCssPx, frame.pictureCssPx) / 2;
    return `M${rulerCssPx - tickCssPx} ${momentCssPx}H${knee}L${bend} ${middle}H${end}`;
  }
  const until = Math.max(untilCssPx, momentCssPx + burstCssPxMin);
  const bracket = `M${rulerCssPx - tickCssPx} ${momentCssPx}H${knee}V${until}H${rulerCssPx - tickCssPx}`;
  const head = topCssPx + burstHeadCssPx / 2;
  return `${bracket}M${knee} ${(momentCssPx + until) / 2}L${bend} ${head}H${end}M${end - 4} ${topCssPx}V${topCssPx + heightCssPx}`;
}

function timeSpan({ stretches }: RailLayout): string {
  const [first, last] = [stretches[0], stretches.at(-1)];
  return first === undefined || last === undefined
    ? ''
    : `${clockTime(first.fromMs)} – ${clockTime(last.toMs)}`;
}

interface StretchProps {
  readonly stretch: RailStretch;
  readonly rulerCssPx: number;
  readonly cssPxPerSecond: number;
  readonly labelled: boolean;
}

function Stretch({ stretch, rulerCssPx, cssPxPerSecond, labelled }: StretchProps): ReactNode {
  const top = stretch.fromCssPx - overhangCssPx;
  return (
    <g>
      <rect
        className="ruler"
        x="0"
        y={top}
        width={rulerCssPx}
        height={stretch.toCssPx - stretch.fromCssPx + 2 * overhangCssPx}
      />
      {ticksOf(stretch, cssPxPerSecond).map(({ momentMs, atCssPx, labelled: named }) => (
        <g key={momentMs}>
          <path
            className="tick"
            d={`M${rulerCssPx - (named ? tickCssPx : tickCssPx / 2)} ${atCssPx}H${rulerCssPx}`}
          />
          {named && labelled ? (
            <text className="tick-label" x={4} y={atCssPx + 4}>
              {clockTick(momentMs)}
            </text>
          ) : null}
        </g>
      ))}
    </g>
  );
}

interface PauseProps {
  readonly pause: RailPause;
  readonly rulerCssPx: number;
  readonly labelled: boolean;
}

/** Torn edges above and below, and between them how long nothing was taken. */
function Pause({ pause, rulerCssPx, labelled }: PauseProps): ReactNode {
  const middle = (pause.fromCssPx + pause.toCssPx) / 2;
  return (
    <g>
      <path className="pause-line" d={`M${rulerCssPx / 2} ${pause.fromCssPx}V${pause.toCssPx}`} />
      {labelled ? (
        <>
          <rect className="ruler" x="0" y={middle - 12} width={rulerCssPx} height="24" rx="12" />
          <text className="pause-label" x={rulerCssPx / 2} y={middle + 4}>
            {spanPhrase(pause.lengthMs)}
          </text>
        </>
      ) : null}
    </g>
  );
}
