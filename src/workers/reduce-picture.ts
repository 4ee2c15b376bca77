import { rgbSpaces } from '../colour/index.ts';
import { encodeTable } from '../develop/index.ts';
import { decodeCodes8 } from '../develop/kernels/decode-codes.ts';
import { encodeSamples8 } from '../develop/kernels/encode-samples.ts';
import type { Rgb8, Size } from '../image/index.ts';
import { averageArea } from '../image/kernels/average-area.ts';

/** Rows decoded to floats at a time: 64 rows of a 12,000 px picture are 9 MB. */
const stripRows = 64;

const toLinear = Float32Array.from({ length: 256 }, (_, code) => rgbSpaces.srgb.transfer.decode(code / 255));
const toCode = encodeTable(rgbSpaces.srgb);

/** An sRGB picture reduced to `size`, averaged in linear light, where mixtures of light and dark keep their brightness. */
export function reducePicture(picture: Rgb8, size: Size): Rgb8 {
  const { widthPx, heightPx, data } = picture;
  if (size.widthPx === widthPx && size.heightPx === heightPx) return picture;
  const reduced = new Float32Array(size.widthPx * size.heightPx * 3);
  const strip = new Float32Array(Math.min(stripRows, heightPx) * widthPx * 3);
  for (let row = 0; row < heightPx; row += stripRows) {
    const rowEnd = Math.min(heightPx, row + stripRows);
    decodeCodes8(data, row * widthPx * 3, (rowEnd - row) * widthPx * 3, toLinear, strip);
    averageArea(strip, widthPx, heightPx, row, rowEnd, reduced, size.widthPx, size.heightPx);
  }
  const out = new Uint8Array(reduced.length);
  encodeSamples8(reduced, reduced.length, toCode, out, 0);
  return { data: out, ...size, channels: 3 };
}
