import { memo, type ReactNode } from 'react';
import { spanPhrase } from '../../words/index.ts';
import { type RailLayout, type RailPause, type RailStretch, ticksOf } from '../viewport/index.ts';
import { clockTick, clockTime } from './clock.ts';
import type { RailMeasures } from './rail-items.ts';

interface RailAxisProps {
  readonly layout: RailLayout;
  readonly measures: RailMeasures;
  readonly laneLeft: (lane: number) => number;
}

/** The ruler may reach this far past the moments it holds. */
const overhangCssPx = 12;
const tickCssPx = 8;
/** Leaders end this far from the ruler, so that a crowd of them can be told apart. */
const leaderKneeCssPx = 6;

/** The time axis: a paper ruler at true scale, torn where nothing happened, and a leader to each frame's moment. */
export const RailAxis = memo(function RailAxis({ layout, measures, laneLeft }: RailAxisProps): ReactNode {
  const { rulerCssPx } = measures;
  const labelled = rulerCssPx > 40;
  return (
    <svg
      className="rail-axis"
      width={laneLeft(1)}
      height={layout.heightCssPx}
      role="img"
      aria-label={timeSpan(layout)}
    >
      {layout.pauses.map((pause) => (
        <Pause key={pause.fromCssPx} pause={pause} rulerCssPx={rulerCssPx} labelled={labelled} />
      ))}
      {layout.stretches.map((stretch) => (
        <Stretch
          key={stretch.fromMs}
          stretch={stretch}
          rulerCssPx={rulerCssPx}
          cssPxPerSecond={layout.cssPxPerSecond}
          labelled={labelled}
        />
      ))}
      {layout.places.map((place) => {
        const middle = place.topCssPx + Math.min(place.heightCssPx, measures.pictureCssPx) / 2;
        const knee = rulerCssPx + leaderKneeCssPx;
        const end = laneLeft(place.lane);
        return (
          <path
            key={place.id}
            className="leader"
            d={`M${rulerCssPx - tickCssPx} ${place.momentCssPx}H${knee}L${laneLeft(0) - leaderKneeCssPx} ${middle}H${end}`}
          />
        );
      })}
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
