import type { RailStretch } from './rail-layout.ts';

export interface RailTick {
  readonly momentMs: number;
  readonly atCssPx: number;
  readonly labelled: boolean;
}

const stepsS: readonly number[] = [1, 5, 10, 30, 60, 300, 600, 1800, 3600];
const tickCssPxMin = 9;
const labelCssPxMin = 56;
/** A label nearer than this to the stretch's own first label would touch it. */
const labelHeightCssPx = 22;

/**
 * Whole seconds, minutes or hours along one stretch of the axis, as close as can be read. The stretch's first moment
 * is always labelled: it is where the eye comes back to the time after a pause.
 */
export function ticksOf(stretch: RailStretch, cssPxPerSecond: number): RailTick[] {
  const stepMs = stepFor(tickCssPxMin, cssPxPerSecond) * 1000;
  const labelMs = stepFor(labelCssPxMin, cssPxPerSecond) * 1000;
  const first: RailTick = { momentMs: stretch.fromMs, atCssPx: stretch.fromCssPx, labelled: true };
  const ticks: RailTick[] = [first];
  for (let moment = Math.ceil(stretch.fromMs / stepMs) * stepMs; moment <= stretch.toMs; moment += stepMs) {
    const atCssPx = stretch.fromCssPx + ((moment - stretch.fromMs) / 1000) * cssPxPerSecond;
    const clear = atCssPx - stretch.fromCssPx >= labelHeightCssPx;
    if (moment > stretch.fromMs)
      ticks.push({ momentMs: moment, atCssPx, labelled: clear && moment % labelMs === 0 });
  }
  return ticks;
}

function stepFor(cssPxMin: number, cssPxPerSecond: number): number {
  return stepsS.find((step) => step * cssPxPerSecond >= cssPxMin) ?? 3600;
}
