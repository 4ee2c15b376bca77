/** Writes the mean of each 2 x 2 block of interleaved RGB into `out`, (width >> 1) x (height >> 1) x 3. */
export function binPixels2x2(rgb: Float32Array, widthPx: number, heightPx: number, out: Float32Array): void {
  const outWidth = widthPx >> 1;
  const outHeight = heightPx >> 1;
  if (rgb.length !== widthPx * heightPx * 3 || out.length !== outWidth * outHeight * 3) {
    throw new RangeError('binPixels2x2: sizes differ');
  }
  const stride = widthPx * 3;
  let to = 0;
  for (let row = 0; row < outHeight; row++) {
    let from = row * 2 * stride;
    for (let column = 0; column < outWidth; column++) {
      for (let channel = 0; channel < 3; channel++) {
        const at = from + channel;
        out[to++] = (rgb[at] + rgb[at + 3] + rgb[at + stride] + rgb[at + stride + 3]) * 0.25;
      }
      from += 6;
    }
  }
}
