import type { LensCorrections } from '../../facts/index.ts';
import type { Region, Size } from '../../image/index.ts';
import { lensSamples } from '../kernels/lens-samples.ts';
import type { FramePlan } from '../plan-frame.ts';
import type { FillStrip } from '../strip-kernels.ts';
import { stripRows } from '../strips.ts';
import { type LensPoints, lensSteps } from './lens-points.ts';
import { type LensSource, RowBand } from './row-band.ts';
import { emptyPoints, fromArea, lensMargin, planesOf, sourceWindow, toArea } from './source-window.ts';

/**
 * Fills `source.strip` with corrected rows of the frame's window. Beside the strip, memory is the band of source rows that
 * a strip's points reach over: for a lens that bends lines by one part in a hundred, some hundredth of the picture.
 */
export function lensRows(lens: LensCorrections, frame: FramePlan, source: LensSource): FillStrip {
  const { window } = frame;
  const scale = frame.from === 'half' ? 2 : 1;
  const planes = boundPlanes(lens, stripRows(window) * window.widthPx);
  const band = new RowBand(source);
  return (rowStart, rowEnd) => {
    const count = (rowEnd - rowStart) * window.widthPx;
    const [lowest, highest] = findPoints(
      planes,
      lens,
      { ...window, ...rowsOf(window, rowStart, rowEnd) },
      scale,
      source.window,
    );
    const [from, to] = band.bring(Math.floor(lowest) - lensMargin, Math.ceil(highest) + lensMargin);
    const { samples, rows, widthPx } = band;
    for (const { points, first, last } of planes) {
      const { xs, ys, gains } = points;
      lensSamples(samples, rows, widthPx, from, to, xs, ys, gains, count, first, last, source.strip);
    }
  };
}

/** One way through the steps, and the channels that take it. */
export interface BoundPlane {
  readonly first: number;
  readonly last: number;
  readonly steps: (points: LensPoints, count: number) => void;
  readonly points: LensPoints;
}

export function boundPlanes(lens: LensCorrections, pixelsMax: number): readonly BoundPlane[] {
  const planes = planesOf(lens);
  return planes.map((plane) => ({
    first: plane,
    last: planes.length === 1 ? 2 : plane,
    steps: lensSteps(lens, plane),
    points: emptyPoints(pixelsMax),
  }));
}

function rowsOf({ topPx }: Region, rowStart: number, rowEnd: number): Pick<Region, 'topPx' | 'heightPx'> {
  return { topPx: topPx + rowStart, heightPx: rowEnd - rowStart };
}

/** Where the light of a window is found, in pixels of `source`; answers the lowest and the highest row. */
function findPoints(
  planes: readonly BoundPlane[],
  lens: LensCorrections,
  window: Region,
  scale: number,
  source: Region,
): readonly [lowest: number, highest: number] {
  const count = window.widthPx * window.heightPx;
  let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { points, steps } of planes) {
    placePoints(points, window, lens, scale);
    steps(points, count);
    for (let index = 0; index < count; index++) {
      const y = fromArea(points.ys[index] ?? 0, lens.topPx, scale) - source.topPx;
      points.xs[index] = fromArea(points.xs[index] ?? 0, lens.leftPx, scale) - source.leftPx;
      points.ys[index] = y;
      if (y < lowest) lowest = y;
      if (y > highest) highest = y;
    }
  }
  return [lowest, highest];
}

function placePoints(
  { xs, ys, gains }: LensPoints,
  { leftPx, topPx, widthPx, heightPx }: Region,
  lens: LensCorrections,
  scale: number,
): void {
  let index = 0;
  for (let row = 0; row < heightPx; row++) {
    const y = toArea(topPx + row, lens.topPx, scale);
    for (let column = 0; column < widthPx; column++, index++) {
      xs[index] = toArea(leftPx + column, lens.leftPx, scale);
      ys[index] = y;
    }
  }
  gains.fill(1, 0, index);
}

/**
 * The same of windows in any order, each made at once: `uncorrected` brings balanced camera RGB of a window, highlights
 * rebuilt. `whole`: size of the picture at that scale. Memory: the window's source, 12 bytes a pixel, and its points.
 */
export function lensWindows(
  lens: LensCorrections,
  from: FramePlan['from'],
  whole: Size,
  uncorrected: (window: Region, to: Float32Array) => void,
): (window: Region, to: Float32Array) => void {
  const scale = from === 'half' ? 2 : 1;
  return (window, to) => {
    const source = sourceWindow(lens, { window, from }, whole);
    const light = new Float32Array(source.widthPx * source.heightPx * 3);
    uncorrected(source, light);
    const count = window.widthPx * window.heightPx;
    const planes = boundPlanes(lens, count);
    findPoints(planes, lens, window, scale, source);
    const { widthPx, heightPx } = source;
    for (const { points, first, last } of planes) {
      const { xs, ys, gains } = points;
      lensSamples(light, heightPx, widthPx, 0, heightPx - 1, xs, ys, gains, count, first, last, to);
    }
  };
}
