import { type ReactNode, useRef } from 'react';
import { type Chromaticity, temperatureToXy, xyToDuv, xyToTemperature } from '../../../colour/index.ts';
import { lookLabels } from '../../../words/index.ts';
import { shiftSteps } from '../../viewport/index.ts';
import { daylightLocus, lightAt, placeOf, planckianLocus, temperatureTicks } from './balance-drawing.ts';
import type { Hand } from './hand.ts';
import { turnKeys } from './turn-keys.ts';
import { useDrag } from './use-drag.ts';

const frame = { width: 304, height: 200 } as const;

/** Steps of the arrows: mired, which are even for the eye, and Duv. */
const keyMired = 5;
const keyDuv = 0.001;

interface BalanceFigureProps {
  readonly hand: Hand;
  /** The white that the camera took; null where it is not known. */
  readonly asShotWhite: Chromaticity | null;
}

/** The light that is to look white, as a point on the u, v diagram of CIE 1960 with both loci. */
export function BalanceFigure({ hand, asShotWhite }: BalanceFigureProps): ReactNode {
  const svg = useRef<SVGSVGElement>(null);
  const { balance } = hand.look;
  const light = balance.from === 'temperature' ? balance : lightOfXy(asShotWhite ?? [0.3127, 0.329]);
  const at = placeOf(frame, temperatureToXy(light.temperatureK, light.duv));
  const take = (temperatureK: number, duv: number): void =>
    hand.change(
      {
        balance: {
          from: 'temperature',
          temperatureK: Math.round(Math.min(25_000, Math.max(1667, temperatureK))),
          duv: Math.round(Math.min(0.05, Math.max(-0.05, duv)) * 1e5) / 1e5,
        },
      },
      'balance',
    );
  const drag = useDrag(
    svg,
    (x, y) => {
      const wanted = lightAt(frame, x, y);
      take(wanted.temperatureK, wanted.duv);
    },
    hand.letGo,
  );
  const keys = turnKeys(hand, (event) => {
    const [cooler, greener] = arrow(event.key);
    if (cooler === 0 && greener === 0) return false;
    const by = event.shiftKey ? shiftSteps : 1;
    take(1e6 / (1e6 / light.temperatureK - cooler * keyMired * by), light.duv + greener * keyDuv * by);
    return true;
  });
  const shot = asShotWhite === null ? null : placeOf(frame, asShotWhite);
  return (
    <svg
      ref={svg}
      className="drawn balance-figure"
      viewBox={`-6 -6 ${frame.width + 12} ${frame.height + 24}`}
    >
      <title>{lookLabels.uvFigure}</title>
      <rect className="figure-ground" width={frame.width} height={frame.height} />
      <polyline className="locus" points={pointsOf(planckianLocus(frame))} />
      <polyline className="locus locus-daylight" points={pointsOf(daylightLocus(frame))} />
      {temperatureTicks(frame).map(({ temperatureK, from, to }) => (
        <g key={temperatureK}>
          <line className="axis-main" x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
          <text className="axis-figure" x={to.x + 4} y={to.y + 12}>
            {temperatureK}
          </text>
        </g>
      ))}
      <text className="axis-name axis-name-left" x="4" y="14">
        v
      </text>
      <text className="axis-name" x={frame.width - 4} y={frame.height - 6}>
        u
      </text>
      {shot === null ? null : <circle className="as-shot" cx={shot.x} cy={shot.y} r="5" />}
      <g
        className="handle"
        role="slider"
        tabIndex={0}
        aria-label={lookLabels.uvFigure}
        aria-valuenow={Math.round(light.temperatureK)}
        aria-valuemin={1667}
        aria-valuemax={25000}
        aria-valuetext={`${Math.round(light.temperatureK)} K, Duv ${light.duv.toFixed(4)}`}
        transform={`translate(${at.x} ${at.y})`}
        {...keys}
        {...drag}
      >
        <circle className="handle-reach" r="18" />
        <circle className="handle-dot" r="7" />
      </g>
    </svg>
  );
}

function lightOfXy(xy: Chromaticity): { readonly temperatureK: number; readonly duv: number } {
  return { temperatureK: xyToTemperature(xy), duv: xyToDuv(xy) };
}

/** Towards blue, towards green. */
function arrow(key: string): readonly [number, number] {
  if (key === 'ArrowLeft') return [1, 0];
  if (key === 'ArrowRight') return [-1, 0];
  if (key === 'ArrowUp') return [0, 1];
  return key === 'ArrowDown' ? [0, -1] : [0, 0];
}

function pointsOf(places: readonly { readonly x: number; readonly y: number }[]): string {
  return places.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');
}
