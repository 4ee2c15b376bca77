import type { Finding } from '../../facts/index.ts';
import { fitLongEdge, type Region, type Size } from '../../image/index.ts';
import { type Geometry, placeOf } from '../../look/index.ts';
import { clipRegion, type RenderSize, scaledSize } from '../plan-frame.ts';
import { forEachBand, placeTiles, type WindowLight } from './bands.ts';

/** Light of a finished picture with a look's geometry, upright; see `LocalLight`. */
export interface PlacedLight {
  readonly window: Size;
  readonly target: Size;
  readonly full: Size;
  readonly issues: readonly Finding[];
  readonly forEachBand: (take: (band: Float32Array, rowStart: number, rowEnd: number) => void) => void;
}

/**
 * Puts a finished picture of `size` where geometry puts it. `light` gives linear light of its windows. All sizes are reduced
 * from full size.
 * Errors: `region-outside`.
 */
export function placedLight(
  size: Size,
  geometry: Geometry,
  wanted: RenderSize,
  light: WindowLight,
): PlacedLight {
  const { toOriginal, findings, widthPx, heightPx } = placeOf(geometry, size.widthPx, size.heightPx);
  const full = { widthPx, heightPx };
  const { window, target } = frameOf(full, wanted);
  return {
    window,
    target,
    full,
    issues: findings,
    forEachBand: (take) =>
      forEachBand(window, placeTiles(light, toOriginal, size), (band, top, rows) =>
        take(band, top - window.topPx, top - window.topPx + rows),
      ),
  };
}

function frameOf(full: Size, wanted: RenderSize): { readonly window: Region; readonly target: Size } {
  const window = { leftPx: 0, topPx: 0, ...full };
  if (wanted === 'full') return { window, target: full };
  if (wanted === 'half')
    return { window, target: scaledSize({ widthPx: full.widthPx & ~1, heightPx: full.heightPx & ~1 }, 0.5) };
  if ('longEdgePx' in wanted) return { window, target: fitLongEdge(full, wanted.longEdgePx) };
  const part = clipRegion(wanted.region, full);
  return { window: part, target: scaledSize(part, wanted.scale ?? 1) };
}
