import type { ReactNode } from 'react';
import type { DepthReadings } from '../../contract/index.ts';
import { depthMissingPhrase, depthPhrase, distancePhrase, readingLabels } from '../../words/index.ts';
import { drawDepth } from './geometry/depth-drawing.ts';
import { NoPlot, PlotFigure } from './plot-figure.tsx';

const width = 264;

/** From where to where it is sharp, along a line of distances away from the camera. */
export function DepthPlot({ depth }: { readonly depth: DepthReadings }): ReactNode {
  const { field, missing } = depth;
  if (field === null) return <NoPlot title={readingLabels.depth} reason={depthMissingPhrase(missing)} />;
  const { focusX, nearX, farX, diffraction } = drawDepth(field, width);
  return (
    <PlotFigure
      title={readingLabels.depth}
      caption={depthPhrase(field)}
      name="depth"
      width={width}
      height={48}
    >
      <path className="plot-rule" d={`M0 18H${width}`} />
      <rect className="plot-good" x={nearX} y={8} width={Math.max(1, farX - nearX)} height={20} />
      {diffraction === null ? null : (
        <rect
          className="plot-strong"
          x={diffraction.nearX}
          y={14}
          width={Math.max(1, diffraction.farX - diffraction.nearX)}
          height={8}
        />
      )}
      <path className="plot-measure" d={`M${focusX} 2V34`} />
      <text className="plot-note" x={Math.max(0, nearX)} y={44} textAnchor={nearX < 40 ? 'start' : 'end'}>
        {distancePhrase(field.nearMm)}
      </text>
      <text className="plot-note" x={focusX} y={44} textAnchor="middle">
        {distancePhrase(field.distanceMm)}
      </text>
      <text className="plot-note" x={Math.min(width, farX)} y={44} textAnchor={farX > 224 ? 'end' : 'start'}>
        {field.farMm === null ? '∞' : distancePhrase(field.farMm)}
      </text>
    </PlotFigure>
  );
}
