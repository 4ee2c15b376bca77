import { averageArea } from './kernels/average-area.ts';
import type { RgbFloat, Size } from './raster.ts';

/**
 * The picture reduced to `size` by area averaging. Averages what a lens would average, so values must be linear light.
 * Errors: RangeError where `size` is larger than the picture.
 */
export function reduceByArea(raster: RgbFloat, size: Size): RgbFloat {
  const data = new Float32Array(size.widthPx * size.heightPx * 3);
  averageArea(
    raster.data,
    raster.widthPx,
    raster.heightPx,
    0,
    raster.heightPx,
    data,
    size.widthPx,
    size.heightPx,
  );
  return { data, ...size, channels: 3 };
}
