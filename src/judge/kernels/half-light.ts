/**
 * Half-size light out of a grid of samples: the mean of each 2x2 block, black taken off. Of a mosaic only green counts
 * (`greenParity` 0 or 1: green lies where (row + column) % 2 is that), of a plain picture every sample (-1).
 *
 * `blacks`: what is taken off in even and in odd rows. `out`: (widthPx >> 1) * (heightPx >> 1) values.
 */
export function halfLight(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  greenParity: number,
  blacks: Float64Array,
  out: Float32Array,
): void {
  const outWidth = widthPx >> 1;
  const outHeight = heightPx >> 1;
  if (values.length < widthPx * heightPx || out.length < outWidth * outHeight || blacks.length !== 2) {
    throw new RangeError('halfLight: sizes differ');
  }
  const black = (blacks[0] + blacks[1]) / 2;
  let to = 0;
  for (let row = 0; row < outHeight; row++) {
    const upper = 2 * row * widthPx;
    const lower = upper + widthPx;
    if (greenParity < 0) {
      for (let column = 0; column < 2 * outWidth; column += 2) {
        const a = upper + column;
        const b = lower + column;
        out[to++] = (values[a] + values[a + 1] + values[b] + values[b + 1]) * 0.25 - black;
      }
    } else {
      const a = upper + greenParity;
      const b = lower + 1 - greenParity;
      for (let column = 0; column < 2 * outWidth; column += 2) {
        out[to++] = (values[a + column] + values[b + column]) * 0.5 - black;
      }
    }
  }
}
