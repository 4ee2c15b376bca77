import { type Matrix3, multiplyMatrices } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import { fitLongEdge, type Orientation, type Region, type Size, uprightSize } from '../../image/index.ts';
import { type Geometry, type Placing, placeOf } from '../../look/index.ts';
import { lanczosLobes, spreadMax } from '../kernels/resample-rows.ts';
import {
  assertBound,
  assertDemosaicable,
  clipRegion,
  type FramePlan,
  halfSize,
  type RenderSize,
  scaledSize,
} from '../plan-frame.ts';

/** How a wanted size is come by where a look has geometry: as `FramePlan`, but the window lies in the picture placed, upright. */
export interface PlacedPlan extends FramePlan {
  /** Places of the picture placed (at full or half size, as `from` says) to places of the sensor's picture at that size. */
  readonly toSensor: Matrix3;
  readonly placing: Placing;
}

/** Errors: as `planFrame`. */
export function planPlaced(mosaic: Mosaic, geometry: Geometry, size: RenderSize): PlacedPlan {
  const upright = uprightSize(mosaic, mosaic.orientation);
  const placing = placeOf(geometry, upright.widthPx, upright.heightPx);
  const frame = frameOf(mosaic, placing, size);
  const toSensor = multiplyMatrices(uprightToStored(mosaic, mosaic.orientation), placing.toOriginal);
  const scale = frame.from === 'half' ? 2 : 1;
  return { ...frame, placing, toSensor: scaledBy(toSensor, scale) };
}

function frameOf(mosaic: Mosaic, placing: Size, size: RenderSize): FramePlan {
  const half = { widthPx: Math.max(1, placing.widthPx >> 1), heightPx: Math.max(1, placing.heightPx >> 1) };
  const hasHalf = Math.min(halfSize(mosaic).widthPx, halfSize(mosaic).heightPx) >= 1;
  if (size === 'half' && hasHalf) return whole('half', half, half);
  assertDemosaicable(mosaic);
  if (typeof size === 'object' && 'region' in size) {
    const window = clipRegion(size.region, placing);
    return assertBound({ from: 'full', window, target: scaledSize(window, size.scale ?? 1) });
  }
  if (typeof size === 'object' && size.longEdgePx <= Math.max(half.widthPx, half.heightPx)) {
    return whole('half', half, fitLongEdge(half, size.longEdgePx));
  }
  const target = typeof size === 'object' ? fitLongEdge(placing, size.longEdgePx) : placing;
  return assertBound(whole('full', placing, target));
}

function whole(from: FramePlan['from'], { widthPx, heightPx }: Size, target: Size): FramePlan {
  return {
    from,
    window: { leftPx: 0, topPx: 0, widthPx, heightPx },
    target: { widthPx: target.widthPx, heightPx: target.heightPx },
  };
}

/** Both sides in pixels of half size: m(s x) / s. */
function scaledBy([a, b, c, d, e, f, g, h, i]: Matrix3, s: number): Matrix3 {
  return [a, b, c / s, d, e, f / s, g * s, h * s, i];
}

/** Places of the upright picture to those of the stored one, whole numbers at outer corners; see `storedPosition` in image. */
export function uprightToStored({ widthPx, heightPx }: Size, orientation: Orientation): Matrix3 {
  const swaps = orientation >= 5;
  const acrossFlips = orientation === 2 || orientation === 3 || orientation === 7 || orientation === 8;
  const downFlips = orientation === 3 || orientation === 4 || orientation === 6 || orientation === 7;
  const sign = (flips: boolean): number => (flips ? -1 : 1);
  // What runs across the stored picture is upright x, or y where edges are swapped.
  const [acrossX, acrossY] = swaps ? [0, sign(acrossFlips)] : [sign(acrossFlips), 0];
  const [downX, downY] = swaps ? [sign(downFlips), 0] : [0, sign(downFlips)];
  return [acrossX, acrossY, acrossFlips ? widthPx : 0, downX, downY, downFlips ? heightPx : 0, 0, 0, 1];
}

/**
 * The pixels of the sensor's picture that a part of the picture placed is taken from, with what the kernel of `resampleRow`
 * reaches beyond. `within`: size of the sensor's picture.
 */
export function sourceRegion(part: Region, toSensor: Matrix3, within: Size): Region {
  const corners = cornersThrough(part, toSensor);
  const spread = spreadOf(corners);
  const reachPx = Math.ceil(lanczosLobes * Math.min(spreadMax, Math.max(1, spread))) + 1;
  const xs = corners.map(({ atX }) => atX);
  const ys = corners.map(({ atY }) => atY);
  // Held inside, so that there is always something to take.
  const left = Math.min(within.widthPx - 1, Math.max(0, Math.floor(Math.min(...xs)) - reachPx));
  const top = Math.min(within.heightPx - 1, Math.max(0, Math.floor(Math.min(...ys)) - reachPx));
  const right = Math.max(left + 1, Math.min(within.widthPx, Math.ceil(Math.max(...xs)) + reachPx));
  const bottom = Math.max(top + 1, Math.min(within.heightPx, Math.ceil(Math.max(...ys)) + reachPx));
  return { leftPx: left, topPx: top, widthPx: right - left, heightPx: bottom - top };
}

interface Corner {
  readonly atX: number;
  readonly atY: number;
  readonly depth: number;
  readonly spread: number;
}

/** How far apart pixels of the part lie in the sensor's picture where they lie farthest, in its pixels. */
export function spreadOver(part: Region, toSensor: Matrix3): number {
  return spreadOf(cornersThrough(part, toSensor));
}

function spreadOf(corners: readonly Corner[]): number {
  const depthLeast = Math.min(...corners.map(({ depth }) => depth));
  return Math.max(...corners.map(({ spread }) => spread)) / depthLeast ** 2;
}

function cornersThrough({ leftPx, topPx, widthPx, heightPx }: Region, toSensor: Matrix3): readonly Corner[] {
  const [a, b, c, d, e, f, g, h, i] = toSensor;
  return [
    [leftPx, topPx],
    [leftPx + widthPx, topPx],
    [leftPx, topPx + heightPx],
    [leftPx + widthPx, topPx + heightPx],
  ].map(([x = 0, y = 0]) => {
    const depth = g * x + h * y + i;
    const atX = (a * x + b * y + c) / depth;
    const atY = (d * x + e * y + f) / depth;
    // Times depth: straight over the part, so that nowhere in it is it larger than at the largest corner.
    const spreadX = Math.hypot(a - atX * g, b - atX * h) * depth;
    const spreadY = Math.hypot(d - atY * g, e - atY * h) * depth;
    return { atX, atY, depth, spread: Math.max(spreadX, spreadY) };
  });
}
