import type { Mosaic } from '../facts/index.ts';
import type { Rgb8, Size } from '../image/index.ts';
import { pictureLight } from './kernels/picture-light.ts';
import { srgbDecodeTable } from './srgb-light.ts';

/**
 * Linear light on a grid of pixels, as readings take it: the green of a mosaic at its full resolution (decision 0008,
 * measuring truly 16), or the luminance of a finished picture.
 */
export interface LightGrid extends Size {
  readonly values: Uint16Array;
  /** Samples lie where (row + column) % 2 is this; -1: everywhere. */
  readonly greenParity: -1 | 0 | 1;
  /** Black level of even and of odd rows. */
  readonly blacks: Float64Array;
  /** Value above black at which light is lost; > 0. */
  readonly saturation: number;
}

/** The green of a mosaic. */
export function greenOfMosaic({
  values,
  widthPx,
  heightPx,
  filters,
  blackLevels,
  whiteLevel,
}: Mosaic): LightGrid {
  // The greens lie on a diagonal: in the first row at column 0 or at column 1.
  const parity = filters[0] === 1 ? 0 : 1;
  const blacks =
    parity === 0
      ? Float64Array.of(blackLevels[0], blackLevels[3])
      : Float64Array.of(blackLevels[1], blackLevels[2]);
  return {
    values,
    widthPx,
    heightPx,
    greenParity: parity,
    blacks,
    saturation: whiteLevel - Math.max(...blacks),
  };
}

/** Luminance of an sRGB picture (ITU-R BT.709 weights, IEC 61966-2-1 curve). */
export function lightOfPicture({ data, widthPx, heightPx }: Rgb8): LightGrid {
  const values = new Uint16Array(widthPx * heightPx);
  pictureLight(data, srgbDecodeTable(), Float64Array.of(0.2126, 0.7152, 0.0722), values);
  return { values, widthPx, heightPx, greenParity: -1, blacks: new Float64Array(2), saturation: 65_535 };
}
