/** Pixels in rows from the top, channels interleaved: `data[(row * widthPx + column) * channels + channel]`. */
export interface Raster<Samples extends Float32Array | Uint16Array | Uint8Array> {
  readonly data: Samples;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly channels: number;
}

/** Three channels of 8 bits, encoded (not linear) unless the function says otherwise. */
export type Rgb8 = Raster<Uint8Array> & { readonly channels: 3 };

/** Three channels of 16 bits. */
export type Rgb16 = Raster<Uint16Array> & { readonly channels: 3 };

/** Three channels of 32-bit floats, linear unless the function says otherwise; values may leave 0 … 1. */
export type RgbFloat = Raster<Float32Array> & { readonly channels: 3 };

export interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * The size of a picture whose longer edge is at most `longEdgePx`, proportions kept, never enlarged, no edge below 1 px.
 */
export function fitLongEdge(size: Size, longEdgePx: number): Size {
  const share = Math.min(1, longEdgePx / Math.max(size.widthPx, size.heightPx));
  return {
    widthPx: Math.max(1, Math.round(size.widthPx * share)),
    heightPx: Math.max(1, Math.round(size.heightPx * share)),
  };
}
