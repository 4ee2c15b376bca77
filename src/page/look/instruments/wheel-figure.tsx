import { type ReactNode, useRef } from 'react';
import type { HueBand } from '../../../look/index.ts';
import { bandPhrase, lookLabels } from '../../../words/index.ts';
import { shiftSteps } from '../../viewport/index.ts';
import type { Hand } from './hand.ts';
import { turnKeys } from './turn-keys.ts';
import { useDrag } from './use-drag.ts';
import { bandsLine, chromaAt, hueAt, onWheel, radiusOf, ringPath, wheel } from './wheel-drawing.ts';

interface WheelFigureProps {
  readonly hand: Hand;
  readonly chosen: number;
  readonly onChoose: (band: number) => void;
}

/** Every twelve degrees a piece of the ring. */
const pieces = Array.from({ length: 30 }, (_, index) => index * 12);

/** Hues on the OKLCh wheel: bands by their middles, the line what all of them do to chroma and hue. */
export function WheelFigure({ hand, chosen, onChoose }: WheelFigureProps): ReactNode {
  const svg = useRef<SVGSVGElement>(null);
  const { bands } = hand.look;
  return (
    <svg ref={svg} className="drawn wheel-figure" viewBox="-106 -106 212 212">
      <title>{lookLabels.hues}</title>
      {pieces.map((hue) => (
        <path
          key={hue}
          d={ringPath(hue - 6, hue + 6, wheel.ring + 2, wheel.outer)}
          fill={`oklch(0.72 0.11 ${hue})`}
        />
      ))}
      <circle className="figure-ground" r={wheel.ring} />
      <circle className="axis-line" r={radiusOf(0)} fill="none" />
      {bands.map((band, index) => {
        const reach = ringPath(band.hueDeg - band.reachDeg, band.hueDeg + band.reachDeg, 6, 12);
        // A band is named by its place: nothing else tells two of one hue apart.
        // biome-ignore lint/suspicious/noArrayIndexKey: the place is the name
        return <path key={index} className="band-reach" data-chosen={index === chosen} d={reach} />;
      })}
      <polygon
        className="curve-line"
        points={bandsLine(bands)
          .map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`)
          .join(' ')}
      />
      {bands.map((band, index) => (
        <BandHandle
          // biome-ignore lint/suspicious/noArrayIndexKey: as above
          key={index}
          hand={hand}
          at={index}
          svg={svg}
          isChosen={index === chosen}
          isUnder={index !== chosen && isNear(band, bands[chosen])}
          onChoose={onChoose}
        />
      ))}
    </svg>
  );
}

interface BandHandleProps {
  readonly hand: Hand;
  readonly at: number;
  readonly svg: Parameters<typeof useDrag>[0];
  readonly isChosen: boolean;
  /** It lies where the chosen one does: the pointer means that one. */
  readonly isUnder: boolean;
  readonly onChoose: (band: number) => void;
}

function BandHandle({ hand, at, svg, isChosen, isUnder, onChoose }: BandHandleProps): ReactNode {
  const band = hand.look.bands[at];
  const drag = useDrag(svg, (x, y) => place(hand, at, hueAt({ x, y }), chromaAt({ x, y })), hand.letGo);
  if (band === undefined) return null;
  const { x, y } = onWheel(band.hueDeg, radiusOf(band.chroma));
  const keys = turnKeys(hand, (event) => {
    const by = event.shiftKey ? shiftSteps : 1;
    const moved = {
      ArrowLeft: [by, 0],
      ArrowRight: [-by, 0],
      ArrowUp: [0, 0.02 * by],
      ArrowDown: [0, -0.02 * by],
    }[event.key];
    if (moved === undefined) return false;
    place(hand, at, (band.hueDeg + (moved[0] ?? 0) + 360) % 360, band.chroma + (moved[1] ?? 0));
    return true;
  });
  return (
    <g
      className="handle"
      data-chosen={isChosen}
      data-under={isUnder}
      role="slider"
      tabIndex={0}
      aria-label={bandPhrase(at + 1, band.hueDeg)}
      aria-valuemin={0}
      aria-valuemax={360}
      aria-valuenow={Math.round(band.hueDeg)}
      transform={`translate(${x} ${y})`}
      onFocus={() => onChoose(at)}
      {...keys}
      {...drag}
    >
      <circle className="handle-reach" r="12" />
      <circle className="handle-dot" r="5" />
      <text className="handle-name" y={y < 0 ? 20 : -10}>
        {at + 1}
      </text>
    </g>
  );
}

/** Units of the drawing within which one handle hides another. */
const hiddenWithin = 12;

function isNear(one: HueBand, other: HueBand | undefined): boolean {
  if (other === undefined) return false;
  const [a, b] = [one, other].map(({ hueDeg, chroma }) => onWheel(hueDeg, radiusOf(chroma)));
  return a !== undefined && b !== undefined && Math.hypot(a.x - b.x, a.y - b.y) < hiddenWithin;
}

/** Hue and chroma at once: one turn. */
function place(hand: Hand, at: number, hueDeg: number, chroma: number): void {
  const held = Math.round(Math.min(1, Math.max(-1, chroma)) * 100) / 100;
  const bands = hand.look.bands.map((band, index) =>
    index === at ? { ...band, hueDeg: Math.round(hueDeg), chroma: held } : band,
  );
  hand.change({ bands }, `band ${at}`);
}
