import { type ReactNode, useRef } from 'react';
import { type CharacteristicCurve, parameters } from '../../../look/index.ts';
import { lookLabels, parameterWords, unitWords } from '../../../words/index.ts';
import { shiftSteps } from '../../viewport/index.ts';
import { numberOf, rangeOf, restOf } from '../state/look-number.ts';
import {
  type CurveHandle,
  curveHandles,
  curveLine,
  draggedCurve,
  type HandleName,
  stopsShown,
  xOfStops,
  yOfDensity,
} from './curve-drawing.ts';
import type { Hand } from './hand.ts';
import { figure } from './tape-drawing.ts';
import { keyed, turnKeys } from './turn-keys.ts';
import { useDrag } from './use-drag.ts';

const frame = { width: 420, height: 220 } as const;
const names = {
  toe: 'curve.toeEv',
  straight: 'curve.gamma',
  pivot: 'curve.pivot',
  shoulder: 'curve.shoulder',
  white: 'curve.whiteEv',
  black: 'curve.densityRange',
} as const satisfies Record<HandleName, `curve.${string}`>;

/** The characteristic curve, dragged by its toe, its straight line, its pivot, its shoulder, its white and its black. */
export function CurveFigure({
  hand,
  curve,
}: {
  readonly hand: Hand;
  readonly curve: CharacteristicCurve;
}): ReactNode {
  const svg = useRef<SVGSVGElement>(null);
  const line = curveLine(frame, curve);
  return (
    <svg
      ref={svg}
      className="drawn curve-figure"
      viewBox={`-34 -12 ${frame.width + 44} ${frame.height + 44}`}
    >
      <title>{lookLabels.curveFigure}</title>
      <Axes />
      <polyline
        className="curve-line"
        points={line.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ')}
      />
      {curveHandles(frame, curve).map((handle) => (
        <Handle key={handle.name} hand={hand} curve={curve} handle={handle} svg={svg} />
      ))}
    </svg>
  );
}

function Axes(): ReactNode {
  const stops = Array.from(
    { length: stopsShown.to - stopsShown.from + 1 },
    (_, index) => stopsShown.from + index,
  );
  return (
    <g className="axes">
      {stops.map((each) => (
        <g key={each} transform={`translate(${xOfStops(frame, each)} 0)`}>
          <line y1="0" y2={frame.height} className={each === 0 ? 'axis-main' : 'axis-line'} />
          {each % 2 === 0 ? (
            <text y={frame.height + 14} className="axis-figure">
              {each > 0 ? `+${each}` : String(each).replace('-', '−')}
            </text>
          ) : null}
        </g>
      ))}
      {[0, 1, 2, 3].map((density) => (
        <g key={density} transform={`translate(0 ${yOfDensity(frame, density)})`}>
          <line x1="0" x2={frame.width} className="axis-line" />
          <text x="-8" y="4" className="axis-figure axis-left">
            {density.toFixed(1)}
          </text>
        </g>
      ))}
      <text x={frame.width} y={frame.height + 28} className="axis-name">
        {lookLabels.stopsAxis}
      </text>
      <text x={6} y={14} className="axis-name axis-name-left">
        {lookLabels.densityAxis}
      </text>
    </g>
  );
}

interface HandleProps {
  readonly hand: Hand;
  readonly curve: CharacteristicCurve;
  readonly handle: CurveHandle;
  readonly svg: Parameters<typeof useDrag>[0];
}

function Handle({ hand, curve, handle, svg }: HandleProps): ReactNode {
  const name = names[handle.name];
  const { step, unit } = parameters[name];
  const { min, max } = rangeOf(hand.look, { name });
  const value = numberOf(hand.look, { name }) ?? 0;
  const drag = useDrag(
    svg,
    (x, y) => {
      const { value: wanted } = draggedCurve(frame, curve, handle.name, { x, y });
      hand.turn({ name }, wanted);
    },
    hand.letGo,
  );
  const label = parameterWords[name]?.name ?? name;
  return (
    <g
      className="handle"
      data-handle={handle.name}
      role="slider"
      // The rules beside it are stops of the tabulator and turn the same numbers.
      tabIndex={-1}
      aria-label={label}
      aria-valuemin={min}
      aria-valuemax={max}
      aria-valuenow={value}
      aria-valuetext={`${figure(value, step)} ${unitWords[unit] ?? ''}`.trim()}
      transform={`translate(${handle.x} ${handle.y})`}
      {...turnKeys(hand, ({ key, shiftKey }) => {
        const next = keyed(key, value, shiftKey ? step * shiftSteps : step, { min, max, rest: restOf(name) });
        if (next !== null) hand.turn({ name }, next);
        return next !== null;
      })}
      {...drag}
    >
      <circle className="handle-reach" r="16" />
      <circle className="handle-dot" r="6" />
      <text className="handle-name" y={handle.name === 'white' ? 22 : -12}>
        {label}
      </text>
    </g>
  );
}
