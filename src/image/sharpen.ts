import type { TiffRaster } from './encode-tiff.ts';

export interface Sharpening {
  /** Sigma of the Gaussian, px. */
  readonly widthPx: number;
  /** How much of what the Gaussian takes away is added; 0: none. */
  readonly strength: number;
}

/**
 * Adds to each pixel of an encoded RGB picture what a Gaussian takes from its luma (unsharp masking; Gonzalez and Woods, Digital
 * Image Processing, 3.6.3, from memory): to all three channels alike, so that no hue moves. Luma by the weights of ITU-R BT.709, which is
 * near enough for a difference. Edges go on. The picture is changed in place, its values kept within its bits.
 */
export function sharpen(picture: TiffRaster, { widthPx: sigma, strength }: Sharpening): void {
  if (strength === 0) return;
  const { data, widthPx, heightPx, channels } = picture;
  const white = data instanceof Uint8Array ? 255 : 65_535;
  const luma = lumaOf(picture);
  const blurred = blurredRows(
    transposed(blurredRows(transposed(luma, widthPx, heightPx), heightPx, widthPx, sigma), heightPx, widthPx),
    widthPx,
    heightPx,
    sigma,
  );
  for (let pixel = 0; pixel < luma.length; pixel++) {
    const more = strength * ((luma[pixel] ?? 0) - (blurred[pixel] ?? 0));
    for (let at = pixel * channels; at < (pixel + 1) * channels; at++) {
      data[at] = Math.max(0, Math.min(white, Math.round((data[at] ?? 0) + more)));
    }
  }
}

function lumaOf({ data, widthPx, heightPx, channels }: TiffRaster): Float32Array {
  const luma = new Float32Array(widthPx * heightPx);
  for (let pixel = 0; pixel < luma.length; pixel++) {
    const at = pixel * channels;
    luma[pixel] =
      channels === 1
        ? (data[at] ?? 0)
        : 0.2126 * (data[at] ?? 0) + 0.7152 * (data[at + 1] ?? 0) + 0.0722 * (data[at + 2] ?? 0);
  }
  return luma;
}

/** Each row through a Gaussian that is cut off at three sigma. */
function blurredRows(plane: Float32Array, widthPx: number, heightPx: number, sigma: number): Float32Array {
  const reach = Math.ceil(sigma * 3);
  const weights = Float64Array.from({ length: reach + 1 }, (_, step) =>
    Math.exp((-step * step) / (2 * sigma * sigma)),
  );
  const sum = weights.reduce((total, weight) => total + 2 * weight, -(weights[0] ?? 0));
  const out = new Float32Array(plane.length);
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    for (let column = 0; column < widthPx; column++) {
      let value = (weights[0] ?? 0) * (plane[start + column] ?? 0);
      for (let step = 1; step <= reach; step++) {
        const left = plane[start + Math.max(0, column - step)] ?? 0;
        const right = plane[start + Math.min(widthPx - 1, column + step)] ?? 0;
        value += (weights[step] ?? 0) * (left + right);
      }
      out[start + column] = value / sum;
    }
  }
  return out;
}

function transposed(plane: Float32Array, widthPx: number, heightPx: number): Float32Array {
  const out = new Float32Array(plane.length);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++)
      out[column * heightPx + row] = plane[row * widthPx + column] ?? 0;
  }
  return out;
}
