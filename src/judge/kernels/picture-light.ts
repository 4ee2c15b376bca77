/**
 * Linear light of an 8-bit picture, 0 … 65535: its luminance out of red, green and blue.
 *
 * `decode`: 256 values of linear light, 0 … 1. `weights`: of red, green, blue; their sum is 1.
 */
export function pictureLight(
  rgb: Uint8Array,
  decode: Float64Array,
  weights: Float64Array,
  out: Uint16Array,
): void {
  if (rgb.length < out.length * 3 || decode.length !== 256 || weights.length !== 3) {
    throw new RangeError('pictureLight: sizes differ');
  }
  const red = new Float64Array(256);
  const green = new Float64Array(256);
  const blue = new Float64Array(256);
  for (let code = 0; code < 256; code++) {
    red[code] = decode[code] * weights[0] * 65535;
    green[code] = decode[code] * weights[1] * 65535;
    blue[code] = decode[code] * weights[2] * 65535 + 0.5;
  }
  for (let to = 0, from = 0; to < out.length; to++, from += 3) {
    out[to] = red[rgb[from]] + green[rgb[from + 1]] + blue[rgb[from + 2]];
  }
}
