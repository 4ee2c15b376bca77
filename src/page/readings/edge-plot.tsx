import type { ReactNode } from 'react';
import type { FrameVerdict, SharpReadings } from '../../contract/index.ts';
import { edgePhrase, figurePhrase, readingLabels } from '../../words/index.ts';
import { drawEdge } from './geometry/edge-drawing.ts';
import { withMovementPx } from './geometry/with-movement.ts';
import { NoPlot, PlotFigure } from './plot-figure.tsx';

const size = { width: 264, height: 120 };

/** How the light rises across the edge, with the 10-90 % rise measured off it. */
export function EdgePlot({
  sharp,
  goodPx,
  verdict,
}: {
  readonly sharp: SharpReadings;
  readonly goodPx: number;
  readonly verdict: FrameVerdict;
}): ReactNode {
  const { profile, spot } = sharp;
  if (profile === null) {
    const reason =
      spot === null || spot.teller === 'sharpest' ? readingLabels.noEdge : readingLabels.noEdgeAtSpot;
    return <NoPlot title={readingLabels.edge} reason={reason} />;
  }
  const { points, path, levels, tenX, ninetyX, good, pixelX } = drawEdge(profile, goodPx, size);
  const widthPx = profile.ninetyPx - profile.tenPx;
  return (
    <PlotFigure
      title={readingLabels.edge}
      caption={`${edgePhrase(widthPx, goodPx, withMovementPx(verdict, widthPx))} ${readingLabels.pixelMarks}`}
      name="edge"
      width={size.width}
      height={size.height + 22}
    >
      <rect
        className="plot-good"
        x={good.fromX}
        y={0}
        width={Math.max(0, good.toX - good.fromX)}
        height={size.height}
      />
      <path className="plot-rule" d={`M0 ${levels.ten}H${size.width}M0 ${levels.ninety}H${size.width}`} />
      <text className="plot-note" x={size.width} y={levels.ten - 4} textAnchor="end">
        10 %
      </text>
      <text className="plot-note" x={0} y={levels.ninety - 4}>
        90 %
      </text>
      <path className="plot-line" d={path} />
      {points.map(({ x, y }) => (
        <circle key={x} className="plot-dot" cx={x} cy={y} r={2} />
      ))}
      <path
        className="plot-measure"
        d={`M${tenX} ${levels.ten}V${size.height + 6}M${ninetyX} ${levels.ninety}V${size.height + 6}M${tenX} ${size.height + 4}H${ninetyX}`}
      />
      <text
        className="plot-figure"
        x={Math.min(ninetyX + 7, size.width - 52)}
        y={size.height + 8}
        textAnchor="start"
      >
        {figurePhrase(widthPx, 'px')}
      </text>
      <path className="plot-ticks" d={pixelX.map((x) => `M${x.toFixed(1)} ${size.height + 16}v6`).join('')} />
    </PlotFigure>
  );
}
