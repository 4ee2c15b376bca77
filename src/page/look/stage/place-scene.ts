import type { Size } from '../../../image/index.ts';
import { type Look, placeOf, sharesToOriginal } from '../../../look/index.ts';
import { fromMiddle, type Placed } from '../painter/painter.ts';

/** Size of the picture that a look's geometry leaves of an original. */
export function placedSize(geometry: Look['geometry'], full: Size): Size {
  const { widthPx, heightPx } = placeOf(geometry, full.widthPx, full.heightPx);
  return { widthPx, heightPx };
}

/**
 * The canvas for a scene under a look's geometry: as fine as the scene is, its places led back to the scene. Resampled by
 * the nearest four pixels, in scene light: the station does that with a better kernel.
 */
export function placeScene(geometry: Look['geometry'], full: Size, scene: Size): Placed {
  const { widthPx, heightPx } = placeOf(geometry, full.widthPx, full.heightPx);
  const fine = scene.widthPx / full.widthPx;
  const scaled = (edgePx: number): number => Math.max(1, Math.round(edgePx * fine));
  const isAll = widthPx === full.widthPx && heightPx === full.heightPx;
  return {
    middle: fromMiddle(full, { leftPx: 0, topPx: 0, ...full }),
    // Of all of it the scene's own size, which may be rounded another way.
    widthPx: isAll ? scene.widthPx : scaled(widthPx),
    heightPx: isAll ? scene.heightPx : scaled(heightPx),
    toScene: sharesToOriginal(geometry, full),
  };
}
