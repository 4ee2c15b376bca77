import {
  type Affine,
  composed,
  cropToShape,
  liesOnItsSide,
  type RectDevicePx,
  storedToUpright,
} from '../viewport/index.ts';
import type { DrawnPicture } from './picture-drawer.ts';

/** The map from a bitmap's stored pixels to where the upright picture shall lie. */
export function pictureToRect({ bitmap, orientation, full }: DrawnPicture, rect: RectDevicePx): Affine {
  const turn = storedToUpright(orientation, bitmap.width, bitmap.height);
  const [uprightWidth, uprightHeight] = liesOnItsSide(orientation)
    ? [bitmap.height, bitmap.width]
    : [bitmap.width, bitmap.height];
  const crop = cropToShape({ widthPx: uprightWidth, heightPx: uprightHeight }, full);
  const [scaleX, scaleY] = [rect.widthDevicePx / crop.width, rect.heightDevicePx / crop.height];
  return composed(turn, {
    a: scaleX,
    b: 0,
    c: 0,
    d: scaleY,
    e: rect.leftDevicePx - crop.left * scaleX,
    f: rect.topDevicePx - crop.top * scaleY,
  });
}
