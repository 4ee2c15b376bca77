import { binPixels2x2 } from './kernels/bin-pixels-2x2.ts';
import type { RgbFloat } from './raster.ts';

/** The mean of each 2 x 2 block: half the edges, an odd last row or column dropped. Linear light in, linear light out. */
export function bin2x2(raster: RgbFloat): RgbFloat {
  const widthPx = raster.widthPx >> 1;
  const heightPx = raster.heightPx >> 1;
  const data = new Float32Array(widthPx * heightPx * 3);
  binPixels2x2(raster.data, raster.widthPx, raster.heightPx, data);
  return { data, widthPx, heightPx, channels: 3 };
}
