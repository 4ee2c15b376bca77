import type { ExposedReadings } from '../../../contract/index.ts';
import { clamp, linear, type PlotSize, place } from './plot-scale.ts';

export interface StopsDrawing {
  /** The outline of one channel, closed along the bottom. */
  readonly outline: string;
  /** Where 18 % grey lies, and every second stop about it. */
  readonly marks: readonly { readonly stops: number; readonly x: number }[];
}

/** From some hundred samples of a large raw to what a plain backdrop gathers in one step; more than that is cut. */
const leastPercent = 0.003;
const mostPercent = 30;

/** One channel's shares by stops: logarithmic both ways, so that a few lost samples are seen beside a wide backdrop. */
export function drawStops(
  percents: readonly number[],
  { fromStops, stepStops }: Pick<ExposedReadings['histogram'], 'fromStops' | 'stepStops'>,
  size: PlotSize,
): StopsDrawing {
  const toStops = fromStops + percents.length * stepStops;
  const x = linear({ from: fromStops, to: toStops }, { from: 0, to: size.width });
  const y = linear(
    { from: Math.log10(leastPercent), to: Math.log10(mostPercent) },
    { from: size.height, to: 0 },
  );
  const heightOf = (percent: number): number =>
    percent <= 0 ? size.height : clamp(y(Math.log10(percent)), 0, size.height);
  const steps = percents.map(
    (percent, at) => `V${place(heightOf(percent))}H${place(x(fromStops + (at + 1) * stepStops))}`,
  );
  const marks: { stops: number; x: number }[] = [];
  for (let stops = Math.ceil(fromStops / 2) * 2; stops <= toStops; stops += 2)
    marks.push({ stops, x: x(stops) });
  return { outline: `M0 ${place(size.height)}${steps.join('')}V${place(size.height)}Z`, marks };
}
