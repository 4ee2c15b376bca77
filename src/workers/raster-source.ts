import type { Rgb8 } from '../image/index.ts';
import { type DecodeRasterOptions, decodeRaster } from './decode-raster.ts';
import { fileKey, LastKept } from './last-kept.ts';

/** Decoded finished pictures by the path of their file. */
export interface RasterSource {
  /** Reads and decodes; the pixels are only read by whoever gets them. Errors: those of `decodeRaster`. */
  open(path: string, options?: DecodeRasterOptions): Promise<Rgb8>;
}

/** Largest picture kept, pixels: a 61-megapixel camera's own JPEG; 190 MB. Larger ones are decoded for each region. */
export const keptRasterPixelsMax = 64_000_000;

/** A source that keeps the last picture for a few seconds, as `keepingSource` does with mosaics. */
export function keepingRasters(): RasterSource {
  const last = new LastKept<Rgb8>();
  return {
    open: async (path, options = {}) =>
      last.get(
        await fileKey(path, options),
        () => decodeRaster(path, options),
        ({ widthPx, heightPx }) => widthPx * heightPx <= keptRasterPixelsMax,
      ),
  };
}
