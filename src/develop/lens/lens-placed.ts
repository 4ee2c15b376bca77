import type { LensCorrections } from '../../facts/index.ts';
import type { Region, Size } from '../../image/index.ts';
import { lensSamples } from '../kernels/lens-samples.ts';
import type { FramePlan } from '../plan-frame.ts';
import { type BoundPlane, boundPlanes } from './lens-rows.ts';
import { fromArea, lensMargin, toArea } from './source-window.ts';

/** Writes where `count` pixels lie in the corrected picture, in its pixels, whole numbers at their middles. */
export type PlacePixels = (xs: Float64Array, ys: Float64Array) => void;

/**
 * As `lensWindows`, of pixels at any place of the corrected picture: what turns or levels it is gone through together with
 * the lens, in one resampling of camera light. Pixels must not lie farther apart than the picture's own, or what is finer
 * than they can hold folds over. Memory: the source of the pixels, 12 bytes a pixel, and their points.
 */
export function lensPlaced(
  lens: LensCorrections,
  from: FramePlan['from'],
  whole: Size,
  uncorrected: (window: Region, to: Float32Array) => void,
): (count: number, place: PlacePixels, to: Float32Array) => void {
  const scale = from === 'half' ? 2 : 1;
  return (count, place, to) => {
    const planes = boundPlanes(lens, count);
    for (const plane of planes) findPlaced(plane, lens, scale, count, place);
    const source = sourceOf(planes, count, whole);
    const { leftPx, topPx, widthPx, heightPx } = source;
    const light = new Float32Array(widthPx * heightPx * 3);
    uncorrected(source, light);
    for (const { points, first, last } of planes) {
      const { xs, ys, gains } = points;
      for (let index = 0; index < count; index++) {
        xs[index] = (xs[index] ?? 0) - leftPx;
        ys[index] = (ys[index] ?? 0) - topPx;
      }
      lensSamples(light, heightPx, widthPx, 0, heightPx - 1, xs, ys, gains, count, first, last, to);
    }
  };
}

function findPlaced(
  { points, steps }: BoundPlane,
  lens: LensCorrections,
  scale: number,
  count: number,
  place: PlacePixels,
): void {
  const { xs, ys, gains } = points;
  place(xs, ys);
  for (let index = 0; index < count; index++) {
    xs[index] = toArea(xs[index] ?? 0, lens.leftPx, scale);
    ys[index] = toArea(ys[index] ?? 0, lens.topPx, scale);
  }
  gains.fill(1, 0, count);
  steps(points, count);
  for (let index = 0; index < count; index++) {
    xs[index] = fromArea(xs[index] ?? 0, lens.leftPx, scale);
    ys[index] = fromArea(ys[index] ?? 0, lens.topPx, scale);
  }
}

/** The pixels that points are made from; beyond the picture its edge goes on. */
function sourceOf(planes: readonly BoundPlane[], count: number, { widthPx, heightPx }: Size): Region {
  let [left, top, right, bottom] = [widthPx, heightPx, 0, 0];
  for (const { points } of planes) {
    for (let index = 0; index < count; index++) {
      const x = Math.min(widthPx - 1, Math.max(0, points.xs[index] ?? 0));
      const y = Math.min(heightPx - 1, Math.max(0, points.ys[index] ?? 0));
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < top) top = y;
      if (y > bottom) bottom = y;
    }
  }
  const leftPx = Math.max(0, Math.floor(left) - lensMargin);
  const topPx = Math.max(0, Math.floor(top) - lensMargin);
  return {
    leftPx,
    topPx,
    widthPx: Math.min(widthPx, Math.ceil(right) + lensMargin + 1) - leftPx,
    heightPx: Math.min(heightPx, Math.ceil(bottom) + lensMargin + 1) - topPx,
  };
}
