import { rgbSpaces } from '../colour/index.ts';
import { encodeTable } from '../develop/index.ts';
import { decodeCodes8 } from '../develop/kernels/decode-codes.ts';
import { encodeSamples8 } from '../develop/kernels/encode-samples.ts';
import { areaReducer, type Rgb8, type Size } from '../image/index.ts';

/** Rows decoded to floats at a time: they stay in the second-level cache until they are added up. */
const stripRows = 4;

const toLinear = Float32Array.from({ length: 256 }, (_, code) => rgbSpaces.srgb.transfer.decode(code / 255));
const toCode = encodeTable(rgbSpaces.srgb);

/** An sRGB picture reduced to `size`, averaged in linear light, where mixtures of light and dark keep their brightness. */
export function reducePicture(picture: Rgb8, size: Size): Rgb8 {
  const { widthPx, heightPx, data } = picture;
  if (size.widthPx === widthPx && size.heightPx === heightPx) return picture;
  const out = new Uint8Array(size.widthPx * size.heightPx * 3);
  const reduce = areaReducer(picture, size, (line, row) => {
    encodeSamples8(line, line.length, toCode, out, row * line.length);
  });
  const strip = new Float32Array(stripRows * widthPx * 3);
  for (let row = 0; row < heightPx; row += stripRows) {
    const rows = Math.min(stripRows, heightPx - row);
    decodeCodes8(data, row * widthPx * 3, rows * widthPx * 3, toLinear, strip);
    reduce(strip, rows);
  }
  return { data: out, ...size, channels: 3 };
}
