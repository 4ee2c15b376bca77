import type { RectDevicePx, Tile } from '../viewport/index.ts';
import type { DrawnPart, DrawnPicture } from './picture-drawer.ts';
import { pictureToRect } from './picture-to-rect.ts';

/** From two to one on pixels are shown as they are, to be counted; smoothing would invent what is between. */
const plainPixelsScale = 2;

/**
 * Draws a part of a picture in one go: all of it, however coarse, and what there is of its tiles over that. Edges of
 * tiles lie on whole device pixels, both neighbours' on the same one, so that no seam shows.
 */
export function paintPart(
  context: CanvasRenderingContext2D,
  { free, place, whole, tiles, covered }: DrawnPart,
): void {
  const scale = place.widthDevicePx / whole.full.widthPx;
  context.resetTransform();
  context.clearRect(0, 0, free.widthDevicePx, free.heightDevicePx);
  context.imageSmoothingEnabled = scale < plainPixelsScale;
  context.imageSmoothingQuality = 'low';
  if (!covered) paintWhole(context, whole, place);
  // Pixel for pixel there is nothing to smooth.
  if (scale === 1) context.imageSmoothingEnabled = false;
  for (const { bitmap, tile } of tiles) {
    const { left, top, width, height } = tileBox(tile, place, scale);
    context.drawImage(bitmap, left, top, width, height);
  }
}

/** Cut to the picture's place: a preview may bring black bars along. */
function paintWhole(context: CanvasRenderingContext2D, whole: DrawnPicture, place: RectDevicePx): void {
  const map = pictureToRect(whole, place);
  context.save();
  context.beginPath();
  context.rect(
    place.leftDevicePx,
    place.topDevicePx,
    Math.round(place.widthDevicePx),
    Math.round(place.heightDevicePx),
  );
  context.clip();
  // Half size at 50 % is pixel for pixel too: copied instead of smoothed, a tenth of the time.
  if (map.a === 1 && map.d === 1) context.imageSmoothingEnabled = false;
  context.setTransform(map.a, map.b, map.c, map.d, map.e, map.f);
  context.drawImage(whole.bitmap, 0, 0);
  context.restore();
}

function tileBox(
  { leftPx, topPx, widthPx, heightPx }: Tile,
  { leftDevicePx, topDevicePx }: RectDevicePx,
  scale: number,
): { left: number; top: number; width: number; height: number } {
  const left = Math.round(leftDevicePx + leftPx * scale);
  const top = Math.round(topDevicePx + topPx * scale);
  return {
    left,
    top,
    width: Math.round(leftDevicePx + (leftPx + widthPx) * scale) - left,
    height: Math.round(topDevicePx + (topPx + heightPx) * scale) - top,
  };
}
