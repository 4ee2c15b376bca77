import type { ReactNode } from 'react';
import type { TargetReadings } from '../../contract/index.ts';
import { readingLabels, targetPhrase } from '../../words/index.ts';
import { PlotFigure } from './plot-figure.tsx';

const cell = 44;
const step = 44;
const line = 58;

/** The patches as they lie on the target, each split: published above, measured below, and by how much they differ. */
export function TargetPlot({ target }: { readonly target: TargetReadings }): ReactNode {
  const { patches, goodMax, badMax } = target;
  return (
    <PlotFigure
      title={readingLabels.patches}
      caption={targetPhrase(target)}
      name="target"
      width={6 * step}
      height={4 * line - 4}
    >
      {patches.map(({ patch, published, measured, deltaE00 }) => {
        const [x, y] = [((patch - 1) % 6) * step, Math.floor((patch - 1) / 6) * line];
        const isOff = deltaE00 !== null && deltaE00 > goodMax;
        return (
          <g key={patch} transform={`translate(${x} ${y})`} data-patch={patch}>
            <path d={`M1 1h${cell - 2}L1 ${cell - 7}z`} fill={published} />
            {measured === null ? (
              <path className="plot-dotted" d={`M${cell - 1} 1v${cell - 8}h-${cell - 2}z`} />
            ) : (
              <path d={`M${cell - 1} 1v${cell - 8}h-${cell - 2}z`} fill={measured} />
            )}
            {isOff ? (
              <rect
                className="plot-off"
                data-bad={deltaE00 > badMax}
                x={1}
                y={1}
                width={cell - 2}
                height={cell - 8}
              />
            ) : null}
            <text
              className={isOff ? 'plot-figure' : 'plot-note'}
              x={cell / 2}
              y={line - 10}
              textAnchor="middle"
            >
              {deltaE00 === null ? '–' : deltaE00.toFixed(1)}
            </text>
          </g>
        );
      })}
    </PlotFigure>
  );
}
