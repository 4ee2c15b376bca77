import type { Region } from './orientation.ts';
import type { Rgb8, Rgb16 } from './raster.ts';

/** A copy of a part of the picture. Errors: RangeError where the part is not wholly inside. */
export function cutOut(raster: Rgb8, part: Region): Rgb8;
export function cutOut(raster: Rgb16, part: Region): Rgb16;
export function cutOut(raster: Rgb8 | Rgb16, { leftPx, topPx, widthPx, heightPx }: Region): Rgb8 | Rgb16 {
  const isInside =
    leftPx >= 0 && topPx >= 0 && leftPx + widthPx <= raster.widthPx && topPx + heightPx <= raster.heightPx;
  if (!isInside) throw new RangeError('cutOut: the part is not wholly inside');
  const samples = widthPx * heightPx * 3;
  const copyInto = (data: Uint8Array | Uint16Array): void => {
    for (let row = 0; row < heightPx; row++) {
      const from = ((topPx + row) * raster.widthPx + leftPx) * 3;
      data.set(raster.data.subarray(from, from + widthPx * 3), row * widthPx * 3);
    }
  };
  if (raster.data instanceof Uint8Array) {
    const data = new Uint8Array(samples);
    copyInto(data);
    return { data, widthPx, heightPx, channels: 3 };
  }
  const data = new Uint16Array(samples);
  copyInto(data);
  return { data, widthPx, heightPx, channels: 3 };
}
