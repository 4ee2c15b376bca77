import type { Region } from './orientation.ts';
import type { Rgb8 } from './raster.ts';

/** A copy of a part of the picture. Errors: RangeError where the part is not wholly inside. */
export function cutOut(raster: Rgb8, { leftPx, topPx, widthPx, heightPx }: Region): Rgb8 {
  const isInside =
    leftPx >= 0 && topPx >= 0 && leftPx + widthPx <= raster.widthPx && topPx + heightPx <= raster.heightPx;
  if (!isInside) throw new RangeError('cutOut: the part is not wholly inside');
  const data = new Uint8Array(widthPx * heightPx * 3);
  for (let row = 0; row < heightPx; row++) {
    const from = ((topPx + row) * raster.widthPx + leftPx) * 3;
    data.set(raster.data.subarray(from, from + widthPx * 3), row * widthPx * 3);
  }
  return { data, widthPx, heightPx, channels: 3 };
}
