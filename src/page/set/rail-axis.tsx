import { memo, type ReactNode } from 'react';
import { spanPhrase } from '../../words/index.ts';
import { type RailLayout, type RailPause, type RailStretch, ticksOf } from '../viewport/index.ts';
import { clockTick, clockTime } from './clock.ts';
import { railWidth } from './rail-items.ts';
import { laneAxisLeft, leaderPath, tickCssPx } from './rail-leader.ts';
import type { RailMeasures } from './rail-measures.ts';

interface RailAxisProps {
  readonly layout: RailLayout;
  readonly measures: RailMeasures;
  /** Lanes there are. */
  readonly lanes: number;
  /** The part that is drawn. */
  readonly fromCssPx: number;
  readonly toCssPx: number;
}

/** The ruler may reach this far past the moments it holds. */
const overhangCssPx = 12;
/** Labels stand this far from the ruler's outer edge. */
const labelInsetCssPx = 5;

/**
 * The time axis: a paper ruler at true scale, torn where nothing happened, repeated as a thread beside each further lane,
 * and a leader from each frame's moment to its picture. No leader runs through another lane.
 */
export const RailAxis = memo(function RailAxis(props: RailAxisProps): ReactNode {
  const { layout, measures, lanes, fromCssPx, toCssPx } = props;
  const labelled = measures.rulerCssPx > 40;
  const threads = Array.from({ length: lanes - 1 }, (_, index) => laneAxisLeft(index + 1, measures));
  const isSeen = (from: number, to: number): boolean => to >= fromCssPx && from <= toCssPx;
  return (
    <svg
      className="rail-axis"
      width={railWidth(lanes, measures)}
      height={layout.heightCssPx}
      role="img"
      aria-label={timeSpan(layout)}
    >
      {layout.pauses
        .filter((pause) => isSeen(pause.fromCssPx, pause.toCssPx))
        .map((pause) => (
          <Pause key={pause.fromCssPx} pause={pause} measures={measures} labelled={labelled} />
        ))}
      {layout.stretches
        .filter((stretch) => isSeen(stretch.fromCssPx - overhangCssPx, stretch.toCssPx + overhangCssPx))
        .map((stretch) => (
          <Stretch
            key={stretch.fromMs}
            stretch={stretch}
            measures={measures}
            threads={threads}
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

function timeSpan({ stretches }: RailLayout): string {
  const [first, last] = [stretches[0], stretches.at(-1)];
  return first === undefined || last === undefined
    ? ''
    : `${clockTime(first.fromMs)} – ${clockTime(last.toMs)}`;
}

interface StretchProps {
  readonly stretch: RailStretch;
  readonly measures: RailMeasures;
  /** Where the threads of the further lanes stand, CSS pixels from the left. */
  readonly threads: readonly number[];
  readonly cssPxPerSecond: number;
  readonly labelled: boolean;
}

function Stretch({ stretch, measures, threads, cssPxPerSecond, labelled }: StretchProps): ReactNode {
  const { insetCssPx, rulerCssPx } = measures;
  const [top, bottom] = [stretch.fromCssPx - overhangCssPx, stretch.toCssPx + overhangCssPx];
  const edge = insetCssPx + rulerCssPx;
  return (
    <g>
      <rect className="ruler" x={insetCssPx} y={top} width={rulerCssPx} height={bottom - top} />
      {threads.map((left) => (
        <path key={left} className="thread" d={`M${left} ${top}V${bottom}`} />
      ))}
      {ticksOf(stretch, cssPxPerSecond).map(({ momentMs, atCssPx, labelled: named }) => (
        <g key={momentMs}>
          <path className="tick" d={`M${edge - (named ? tickCssPx : tickCssPx / 2)} ${atCssPx}H${edge}`} />
          {named && labelled ? (
            <text className="tick-label" x={insetCssPx + labelInsetCssPx} y={atCssPx + 4}>
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
  readonly measures: RailMeasures;
  readonly labelled: boolean;
}

/** Torn edges above and below, and between them how long nothing was taken. */
function Pause({ pause, measures, labelled }: PauseProps): ReactNode {
  const { insetCssPx, rulerCssPx } = measures;
  const centre = insetCssPx + rulerCssPx / 2;
  const middle = (pause.fromCssPx + pause.toCssPx) / 2;
  return (
    <g>
      <path className="pause-line" d={`M${centre} ${pause.fromCssPx}V${pause.toCssPx}`} />
      {labelled ? (
        <>
          <rect className="ruler" x={insetCssPx} y={middle - 12} width={rulerCssPx} height="24" rx="12" />
          <text className="pause-label" x={centre} y={middle + 4}>
            {spanPhrase(pause.lengthMs)}
          </text>
        </>
      ) : null}
    </g>
  );
}
