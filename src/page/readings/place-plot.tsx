import type { ReactNode } from 'react';
import type { Finding } from '../../facts/index.ts';
import { liesPhrase, readingLabels, ringPhrase, subjectPhrase } from '../../words/index.ts';
import { placeDrawing, ringPx } from './geometry/place-drawing.ts';
import { NoPlot, PlotFigure } from './plot-figure.tsx';

interface PlacePlotProps {
  /** Of the frame, by name. */
  readonly figures: Readonly<Record<string, number>>;
  /** Of In place. */
  readonly findings: readonly Finding[];
  /** Width by height of the upright picture. */
  readonly shape: number;
  /** Whether it is yet to be measured. */
  readonly isAwaited: boolean;
}

const longEdge = 264;
/** Of the ring that an arrow is drawn in. */
const radius = 30;

/** How the subject stands in the frame with the room around it, and which way it has moved: enlarged, in a ring of known size. */
export function PlacePlot({ figures, findings, shape, isAwaited }: PlacePlotProps): ReactNode {
  const { box, margins, move, changed } = placeDrawing(figures, findings);
  const words = [liesPhrase(figures), subjectPhrase(figures)].filter((text) => text !== null);
  if (words.length === 0)
    return (
      <NoPlot
        title={readingLabels.place}
        reason={isAwaited ? readingLabels.placeNotYet : readingLabels.noPlace}
      />
    );
  const width = shape >= 1 ? longEdge : Math.max(150, longEdge * shape);
  // Without a place in it there is nothing of the frame to show but its middle.
  const isMap = box !== null || changed.length > 0;
  const height = isMap ? width / shape : 2 * radius + 4;
  const [left, top] = [(box?.left ?? 0) * width, (box?.top ?? 0) * height];
  const [right, bottom] = [(box?.right ?? 1) * width, (box?.bottom ?? 1) * height];
  const middle = [(left + right) / 2, (top + bottom) / 2] as const;
  const ring = move === null ? null : ringPx(move);
  return (
    <PlotFigure
      title={readingLabels.place}
      caption={[
        ...words,
        ...(ring === null ? [] : [ringPhrase(ring)]),
        ...(changed.length === 0 ? [] : [readingLabels.changedThere]),
      ].join(' ')}
      name="place"
      width={longEdge}
      height={height}
    >
      <g transform={`translate(${(longEdge - width) / 2} 0)`}>
        {isMap ? <rect className="plot-ground" width={width} height={height} /> : null}
        {box === null || margins === null ? null : (
          <>
            <rect className="place-box" x={left} y={top} width={right - left} height={bottom - top} />
            <path
              className="plot-rule"
              d={`M0 ${middle[1]}H${left}M${right} ${middle[1]}H${width}M${middle[0]} 0V${top}M${middle[0]} ${bottom}V${height}`}
            />
            <Margin x={left / 2} y={middle[1] - 4} percent={margins.left} />
            <Margin x={(right + width) / 2} y={middle[1] - 4} percent={margins.right} />
            <Margin x={middle[0] + 18} y={top / 2 + 4} percent={margins.top} />
            <Margin x={middle[0] + 18} y={(bottom + height) / 2 + 4} percent={margins.bottom} />
          </>
        )}
        {changed.map(({ x, y }) => (
          <g key={`${x} ${y}`} className="place-changed" transform={`translate(${x * width} ${y * height})`}>
            <circle r={width / 14} />
            <circle r={width / 14 - 4} />
          </g>
        ))}
        {move === null || ring === null ? null : (
          <g transform={`translate(${middle[0]} ${middle[1]})`}>
            <circle className="place-ring" r={radius} />
            <Arrow x={(move.rightPx / ring) * radius} y={(move.downPx / ring) * radius} />
          </g>
        )}
      </g>
    </PlotFigure>
  );
}

/** Room of less than a tenth has no place for its figure; the words have it. */
function Margin({
  x,
  y,
  percent,
}: {
  readonly x: number;
  readonly y: number;
  readonly percent: number;
}): ReactNode {
  if (percent < 9) return null;
  return (
    <text className="plot-figure" x={x} y={y} textAnchor="middle">
      {Math.round(percent)} %
    </text>
  );
}

/** From the middle of the ring; of next to nothing it is a dot. */
function Arrow({ x, y }: { readonly x: number; readonly y: number }): ReactNode {
  const length = Math.hypot(x, y);
  if (length < 3) return <circle className="plot-strong" r={3} />;
  const [u, v] = [x / length, y / length];
  const head = Math.min(9, length);
  const [hx, hy] = [x - u * head, y - v * head];
  return (
    <>
      <path className="place-shaft" d={`M0 0L${hx} ${hy}`} />
      <path
        className="plot-strong"
        d={`M${x} ${y}L${hx - v * head * 0.5} ${hy + u * head * 0.5}L${hx + v * head * 0.5} ${hy - u * head * 0.5}z`}
      />
    </>
  );
}
