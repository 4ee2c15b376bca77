import type { ReactNode } from 'react';
import type { ExposedReadings } from '../../contract/index.ts';
import { channelPhrase, lostSharePhrase, readingLabels, stopsMarkPhrase } from '../../words/index.ts';
import { drawStops } from './geometry/stops-drawing.ts';
import { PlotFigure } from './plot-figure.tsx';

const width = 264;
const strip = 46;
const gap = 8;
const channels = ['red', 'green', 'blue'] as const;

/** One strip for each channel of the sensor, on one scale of stops: nothing lies over anything else. */
export function StopsPlot({ exposed }: { readonly exposed: ExposedReadings }): ReactNode {
  const size = { width, height: strip };
  const { marks } = drawStops(exposed.histogram.green, exposed.histogram, size);
  const bottom = channels.length * (strip + gap) - gap;
  return (
    <PlotFigure
      title={readingLabels.stops}
      caption={channels.map((channel) => channelPhrase(channel, exposed[channel])).join(' ')}
      name="stops"
      width={width}
      height={bottom + 18}
    >
      {channels.map((channel, at) => {
        const { outline } = drawStops(exposed.histogram[channel], exposed.histogram, size);
        const { saturatedPercent } = exposed[channel];
        return (
          <g key={channel} transform={`translate(0 ${at * (strip + gap)})`} data-channel={channel}>
            <rect className="plot-ground" width={width} height={strip} />
            <path className="plot-area" d={outline} />
            <text className="plot-name" x={5} y={14}>
              {readingLabels.channels[channel]}
            </text>
            {saturatedPercent > 0 ? (
              <text className="plot-figure" x={width - 5} y={14} textAnchor="end">
                {lostSharePhrase(saturatedPercent)}
              </text>
            ) : null}
          </g>
        );
      })}
      {marks
        .filter(({ x }) => x >= 8)
        .map(({ stops, x }) => (
          <g key={stops}>
            <path
              className={stops === 0 ? 'plot-zero' : 'plot-tick'}
              d={`M${x} ${stops === 0 ? 0 : bottom}V${bottom + 4}`}
            />
            <text className="plot-note" x={x} y={bottom + 15} textAnchor={x > width - 8 ? 'end' : 'middle'}>
              {stopsMarkPhrase(stops)}
            </text>
          </g>
        ))}
    </PlotFigure>
  );
}
