import type { ReactNode } from 'react';
import { temperatureToXy } from '../../../colour/index.ts';
import type { Look } from '../../../look/index.ts';
import { placeOf, planckianLocus } from './balance-drawing.ts';
import { curveLine } from './curve-drawing.ts';
import type { Instrument } from './instruments.ts';
import { bandsLine, wheel } from './wheel-drawing.ts';

const box = { width: 44, height: 30 } as const;

/** A small drawing of where an instrument stands. */
export function Glyph({
  instrument,
  look,
}: {
  readonly instrument: Instrument;
  readonly look: Look;
}): ReactNode {
  return (
    <svg className="glyph" viewBox={`0 0 ${box.width} ${box.height}`} aria-hidden="true" focusable="false">
      {drawing(instrument, look)}
    </svg>
  );
}

function drawing(instrument: Instrument, look: Look): ReactNode {
  switch (instrument) {
    case 'balance':
      return <BalanceGlyph look={look} />;
    case 'exposure': {
      const x = 22 + (look.exposureEv / 5) * 20;
      return <path d={`M2 22h40M2 22v-6M12 22v-4M22 22v-8M32 22v-4M42 22v-6M${x} 12l-4 -7h8z`} />;
    }
    case 'curve': {
      if (look.curve === null) return <path d="M4 28L30 2H42" />;
      return <polyline points={linePoints(curveLine(box, look.curve).map(([x, y]) => ({ x, y })))} />;
    }
    case 'channels': {
      const { slope, offset } = look.cdl;
      return slope.map((each, at) => {
        const low = 26 - (offset[at] ?? 0) * 22 - at;
        const dash = dashes[at] ?? '';
        return (
          <path key={dash} d={`M4 ${low}L40 ${low - 18 * Math.min(1.3, each)}`} strokeDasharray={dash} />
        );
      });
    }
    case 'hues': {
      const scale = 14 / wheel.outer;
      const points = bandsLine(look.bands).map(({ x, y }) => ({ x: 22 + x * scale, y: 15 + y * scale }));
      return (
        <>
          <circle cx="22" cy="15" r="13" />
          <polygon points={linePoints(points)} />
        </>
      );
    }
    case 'monochrome':
      return (
        <>
          <circle cx="22" cy="15" r="12" />
          <path className="glyph-full" d="M22 3a12 12 0 0 1 0 24z" />
        </>
      );
    case 'tint':
      return (
        <>
          <rect x="4" y="6" width="36" height="18" />
          <path d={`M${4 + 36 * look.tint.crossing} 3v24M4 24L40 6`} />
        </>
      );
    case 'detail':
      return <path d="M3 23h15c3 0 3 3 5 3V4c2 0 2 3 5 3h14" />;
    case 'grain':
      return grains.map(([x, y, r]) => (
        <circle className="glyph-full" key={`${x} ${y}`} cx={x} cy={y} r={r} />
      ));
    case 'geometry':
      return (
        <>
          <rect x="5" y="4" width="34" height="22" />
          <path d="M11 26L15 4M33 26L29 4" strokeDasharray="2 2" />
        </>
      );
    case 'target':
      return [0, 1, 2, 3, 4, 5].map((at) => (
        <rect
          key={at}
          className={at % 2 === 0 ? 'glyph-full' : ''}
          x={6 + (at % 3) * 11}
          y={4 + (at > 2 ? 12 : 0)}
          width="9"
          height="9"
        />
      ));
    case 'versions':
      return <path d="M6 10h20v16h-20zM11 10v-4h20v16h-5M16 6v-4h20v16h-5" />;
  }
}

const dashes = ['', '3 2', '1 2'] as const;
const grains = [
  [8, 8, 2],
  [17, 20, 1.5],
  [23, 7, 1.5],
  [30, 16, 2.2],
  [37, 24, 1.5],
  [10, 24, 1.6],
  [38, 8, 1.4],
] as const;

function BalanceGlyph({ look }: { readonly look: Look }): ReactNode {
  const { balance } = look;
  const light = balance.from === 'temperature' ? balance : { temperatureK: 6504, duv: 0.003 };
  const { x, y } = placeOf(box, temperatureToXy(light.temperatureK, light.duv));
  return (
    <>
      <polyline points={linePoints(planckianLocus(box))} />
      <circle className="glyph-full" cx={x} cy={y} r="3" />
    </>
  );
}

function linePoints(places: readonly { readonly x: number; readonly y: number }[]): string {
  return places.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');
}
