import { rgbSpaces } from '../colour/index.ts';

let table: Float64Array | null = null;

/** Linear light, 0 … 1, of the 256 codes of sRGB (IEC 61966-2-1). */
export function srgbDecodeTable(): Float64Array {
  table ??= Float64Array.from({ length: 256 }, (_, code) => rgbSpaces.srgb.transfer.decode(code / 255));
  return table;
}
