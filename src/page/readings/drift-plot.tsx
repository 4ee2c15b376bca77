import type { ReactNode } from 'react';
import type { LightReadings } from '../../contract/index.ts';
import { driftPhrase, evPhrase, readingLabels } from '../../words/index.ts';
import { drawDrift } from './geometry/drift-drawing.ts';
import { MarkShape } from './mark-shape.tsx';
import { NoPlot, PlotFigure } from './plot-figure.tsx';

const size = { width: 264, height: 110 };

/** The light of the last frames as stems from the baseline; what is as it was lies within the grey. */
export function DriftPlot({ light }: { readonly light: LightReadings | null }): ReactNode {
  if (light === null) return <NoPlot title={readingLabels.drift} reason={readingLabels.noLight} />;
  if (light.frames.length < 2) return <NoPlot title={readingLabels.drift} reason={readingLabels.noDrift} />;
  const { zeroY, good, frames, reachEv } = drawDrift(light, size);
  return (
    <PlotFigure
      title={readingLabels.drift}
      caption={driftPhrase(light.baseline, light.frames, light.badEv)}
      name="drift"
      width={size.width}
      height={size.height}
    >
      <rect className="plot-ground" width={size.width} height={size.height} />
      <rect className="plot-good" y={good.fromY} width={size.width} height={good.toY - good.fromY} />
      <path className="plot-rule" d={`M0 ${zeroY}H${size.width}`} />
      <text className="plot-note" x={4} y={12}>
        +{reachEv} EV
      </text>
      <text className="plot-note" x={4} y={size.height - 4}>
        −{reachEv} EV
      </text>
      {frames.map((mark) => (
        <g key={mark.frame} data-judgement={mark.judgement}>
          <path
            className={mark.judgement === 'bad' ? 'plot-stem plot-stem-bad' : 'plot-stem'}
            d={`M${mark.x} ${zeroY}V${mark.y}`}
          />
          {mark.own ? <circle className="plot-own" cx={mark.x} cy={mark.y} r={8.5} /> : null}
          <MarkShape
            judgement={mark.judgement}
            x={mark.x}
            y={mark.y}
            radius={mark.judgement === 'bad' ? 6 : 4}
          />
          {mark.judgement === 'bad' && mark.ev !== null ? (
            <text
              className="plot-figure"
              x={mark.x > size.width - 70 ? mark.x - 11 : mark.x + 11}
              y={mark.y + 4}
              textAnchor={mark.x > size.width - 70 ? 'end' : 'start'}
            >
              {evPhrase(mark.ev)}
            </text>
          ) : null}
        </g>
      ))}
    </PlotFigure>
  );
}
