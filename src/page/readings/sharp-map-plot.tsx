import type { ReactNode } from 'react';
import type { SharpReadings } from '../../contract/index.ts';
import { readingLabels, sharpMapPhrase, spotPhrase } from '../../words/index.ts';
import { tileMarks } from './geometry/tile-marks.ts';
import { MarkShape } from './mark-shape.tsx';
import { NoPlot, PlotFigure } from './plot-figure.tsx';

const widthMax = 264;
const heightMax = 200;

interface SharpMapPlotProps {
  readonly sharp: SharpReadings;
  readonly goodPx: number;
  readonly badPx: number;
  /** Width by height of the upright picture. */
  readonly shape: number;
}

/** The picture's tiles, each with a disc as large as the blur of its edges; the spot that is spoken of is framed. */
export function SharpMapPlot({ sharp, goodPx, badPx, shape }: SharpMapPlotProps): ReactNode {
  const { map, spot, atSpot } = sharp;
  const marks = tileMarks(map, goodPx, badPx);
  if (marks.length === 0) return <NoPlot title={readingLabels.sharpMap} reason={readingLabels.noEdge} />;
  const width = Math.min(widthMax, heightMax * shape);
  const height = width / shape;
  const left = (widthMax - width) / 2;
  const words = sharpMapPhrase(
    marks.map(({ widthPx }) => widthPx),
    map.columns * map.rows,
    goodPx,
    badPx,
  );
  const read = spot === null || atSpot === null ? '' : ` ${spotPhrase(spot.teller, atSpot.edges)}`;
  return (
    <PlotFigure
      title={readingLabels.sharpMap}
      caption={`${words}${read}`}
      name="sharp-map"
      width={widthMax}
      height={height}
    >
      <g transform={`translate(${left} 0)`}>
        <rect className="plot-ground" width={width} height={height} />
        <path
          className="plot-grid"
          d={[
            ...map.columnEnds.slice(0, -1).map((end) => `M${end * width} 0V${height}`),
            ...map.rowEnds.slice(0, -1).map((end) => `M0 ${end * height}H${width}`),
          ].join('')}
        />
        {marks.map((mark) => (
          <MarkShape
            key={`${mark.x} ${mark.y}`}
            judgement={mark.judgement}
            x={mark.x * width}
            y={mark.y * height}
            radius={mark.radius * Math.min(mark.width * width, mark.height * height)}
          />
        ))}
        {spot === null ? null : (
          <rect
            className="plot-spot"
            x={spot.left * width}
            y={spot.top * height}
            width={(spot.right - spot.left) * width}
            height={(spot.bottom - spot.top) * height}
          />
        )}
      </g>
    </PlotFigure>
  );
}
