import type { LensCorrections } from '../../facts/index.ts';
import type { Region, Size } from '../../image/index.ts';
import type { FramePlan } from '../plan-frame.ts';
import { isOneWay, type LensPoints, lensSteps } from './lens-points.ts';

/** Pixels around that a sample is made from. */
export const lensMargin = 2;

/**
 * The part of the picture, as it comes from the sensor, that a corrected window is made from, at half or full size. Told by
 * the window's border and a net of points over it; `whole` is the size of the picture.
 */
export function sourceWindow(
  lens: LensCorrections,
  { window, from }: Pick<FramePlan, 'window' | 'from'>,
  whole: Size,
): Region {
  const scale = from === 'half' ? 2 : 1;
  const net = netOf(window);
  let [left, top, right, bottom] = [whole.widthPx, whole.heightPx, 0, 0];
  for (const plane of planesOf(lens)) {
    const points = emptyPoints(net.length);
    net.forEach(([x, y], index) => {
      points.xs[index] = toArea(x, lens.leftPx, scale);
      points.ys[index] = toArea(y, lens.topPx, scale);
    });
    lensSteps(lens, plane)(points, net.length);
    for (let index = 0; index < net.length; index++) {
      const x = held(fromArea(points.xs[index] ?? 0, lens.leftPx, scale), whole.widthPx);
      const y = held(fromArea(points.ys[index] ?? 0, lens.topPx, scale), whole.heightPx);
      left = Math.min(left, Math.floor(x) - lensMargin);
      right = Math.max(right, Math.ceil(x) + lensMargin + 1);
      top = Math.min(top, Math.floor(y) - lensMargin);
      bottom = Math.max(bottom, Math.ceil(y) + lensMargin + 1);
    }
  }
  const leftPx = Math.max(0, left);
  const topPx = Math.max(0, top);
  return {
    leftPx,
    topPx,
    widthPx: Math.min(whole.widthPx, right) - leftPx,
    heightPx: Math.min(whole.heightPx, bottom) - topPx,
  };
}

function held(value: number, length: number): number {
  return Math.min(length - 1, Math.max(0, value));
}

/** Steps of the net over a window: corrections are smooth, and change little in a 32nd of a picture. */
const netSteps = 32;

function netOf({ leftPx, topPx, widthPx, heightPx }: Region): readonly (readonly [number, number])[] {
  const along = (start: number, length: number): number[] =>
    Array.from({ length: netSteps + 1 }, (_, step) => start + ((length - 1) * step) / netSteps);
  return along(topPx, heightPx).flatMap((y) => along(leftPx, widthPx).map((x) => [x, y] as const));
}

/** A pixel of the mosaic's picture, `scale` samples wide, in pixels of the area. */
export function toArea(pixel: number, offsetPx: number, scale: number): number {
  return offsetPx + pixel * scale + (scale - 1) / 2;
}

/** The other way round. */
export function fromArea(place: number, offsetPx: number, scale: number): number {
  return (place - offsetPx - (scale - 1) / 2) / scale;
}

export function planesOf(lens: LensCorrections): readonly number[] {
  return isOneWay(lens) ? [0] : [0, 1, 2];
}

export function emptyPoints(count: number): LensPoints {
  return {
    xs: new Float64Array(count),
    ys: new Float64Array(count),
    gains: new Float64Array(count).fill(1),
  };
}
