import { SetsideError } from '../base/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { fitLongEdge, type Region, type Size, storedRegion, uprightSize } from '../image/index.ts';
import { type DevelopErrorCode, developErrors } from './errors.ts';

/**
 * What the developed picture is wanted as: half the mosaic's edges; all its pixels; reduced to a long edge in px, from
 * half size where that suffices and from full size beyond (never enlarged); or a region of the full-size picture.
 */
export type RenderSize =
  | 'half'
  | 'full'
  | { readonly longEdgePx: number }
  /**
   * In pixels of the upright full-size picture; what lies outside is left out. `scale` is pixels rendered per pixel of
   * the region, 0 < scale <= 1; 1 where it is left out.
   */
  | { readonly region: Region; readonly scale?: number };

/** How a wanted size is come by. */
export interface FramePlan {
  readonly from: 'half' | 'full';
  /** The part of the picture at that size, as the sensor lies. */
  readonly window: Region;
  /** What it is reduced to, as the sensor lies; the window's size where it is not. */
  readonly target: Size;
}

/**
 * Most pixels rendered at full size: the largest sensor in trade has 150 million. The picture takes 3 bytes a pixel, as
 * much again while it is turned, beside 2 of the mosaic.
 */
export const fullPixelsMax = 160_000_000;

/** Errors: `raw-too-large`, `region-outside`, `raw-unsupported-mosaic` for a mosaic too small to be demosaiced. */
export function planFrame(mosaic: Mosaic, size: RenderSize): FramePlan {
  const half = halfSize(mosaic);
  if (size === 'half') return wholeOf(half, 'half');
  assertDemosaicable(mosaic);
  if (size === 'full') return assertBound(wholeOf(mosaic, 'full'));
  if ('region' in size) return assertBound(regionOf(mosaic, size.region, size.scale ?? 1));
  const { longEdgePx } = size;
  return longEdgePx <= Math.max(half.widthPx, half.heightPx)
    ? { ...wholeOf(half, 'half'), target: fitLongEdge(half, longEdgePx) }
    : { ...assertBound(wholeOf(mosaic, 'full')), target: fitLongEdge(mosaic, longEdgePx) };
}

/** Half the edges of the mosaic; an odd last row or column is dropped. */
export function halfSize({ widthPx, heightPx }: Size): Size {
  return { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
}

function wholeOf({ widthPx, heightPx }: Size, from: FramePlan['from']): FramePlan {
  return { from, window: { leftPx: 0, topPx: 0, widthPx, heightPx }, target: { widthPx, heightPx } };
}

function regionOf(mosaic: Mosaic, wanted: Region, scale: number): FramePlan {
  const region = clipRegion(wanted, uprightSize(mosaic, mosaic.orientation));
  const window = storedRegion(region, mosaic, mosaic.orientation);
  return { from: 'full', window, target: scaledSize(window, scale) };
}

/** A size times `scale`, in whole pixels, no edge below 1 px. */
export function scaledSize({ widthPx, heightPx }: Size, scale: number): Size {
  return {
    widthPx: Math.max(1, Math.round(widthPx * scale)),
    heightPx: Math.max(1, Math.round(heightPx * scale)),
  };
}

/** The whole pixels that a region touches within a picture. Errors: `region-outside` where there are none. */
export function clipRegion(region: Region, picture: Size): Region {
  const leftPx = Math.max(0, Math.floor(region.leftPx));
  const topPx = Math.max(0, Math.floor(region.topPx));
  const widthPx = Math.min(picture.widthPx, Math.ceil(region.leftPx + region.widthPx)) - leftPx;
  const heightPx = Math.min(picture.heightPx, Math.ceil(region.topPx + region.heightPx)) - topPx;
  // Written so that NaN is outside too.
  if (!(widthPx >= 1 && heightPx >= 1)) {
    throw developError('region-outside', { widthPx: picture.widthPx, heightPx: picture.heightPx });
  }
  return { leftPx, topPx, widthPx, heightPx };
}

/** The kernel mirrors two samples at each edge. */
export function assertDemosaicable({ widthPx, heightPx }: Size): void {
  if (Math.min(widthPx, heightPx) < 3) throw developError('raw-unsupported-mosaic', { widthPx, heightPx });
}

export function assertBound(plan: FramePlan): FramePlan {
  const pixels = plan.window.widthPx * plan.window.heightPx;
  if (pixels > fullPixelsMax) throw developError('raw-too-large', { pixels, pixelsMax: fullPixelsMax });
  return plan;
}

function developError(code: DevelopErrorCode, details: Record<string, number>): SetsideError {
  return new SetsideError(code, developErrors[code], { details });
}
