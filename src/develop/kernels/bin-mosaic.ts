/**
 * Balanced camera RGB of the half-size rows `rowStart` … `rowEnd - 1` into `out` (interleaved, from its start).
 * Reference: `binBlock` in reference.ts.
 *
 * `numbers` (length 11): black of positions 0-3, scale of positions 0-3, then the positions of red, blue and the first
 * green; the second green is the one left over.
 */
export function binMosaic(
  values: Uint16Array,
  widthPx: number,
  rowStart: number,
  rowEnd: number,
  numbers: Float64Array,
  out: Float32Array,
): void {
  const outWidth = widthPx >> 1;
  if (values.length < 2 * rowEnd * widthPx || out.length < (rowEnd - rowStart) * outWidth * 3) {
    throw new RangeError('binMosaic: sizes differ');
  }
  if (numbers.length !== 11) throw new RangeError('binMosaic: 11 numbers expected');
  const red = numbers[8];
  const blue = numbers[9];
  const green0 = numbers[10];
  const green1 = 6 - red - blue - green0;
  const offsetR = (red >> 1) * widthPx + (red & 1);
  const offsetB = (blue >> 1) * widthPx + (blue & 1);
  const offsetG0 = (green0 >> 1) * widthPx + (green0 & 1);
  const offsetG1 = (green1 >> 1) * widthPx + (green1 & 1);
  const scaleR = numbers[4 + red];
  const scaleB = numbers[4 + blue];
  const scaleG0 = numbers[4 + green0] / 2;
  const scaleG1 = numbers[4 + green1] / 2;
  const shiftR = numbers[red] * scaleR;
  const shiftB = numbers[blue] * scaleB;
  const shiftG = numbers[green0] * scaleG0 + numbers[green1] * scaleG1;

  let to = 0;
  for (let row = rowStart; row < rowEnd; row++) {
    let at = 2 * row * widthPx;
    for (let column = 0; column < outWidth; column++) {
      out[to] = values[at + offsetR] * scaleR - shiftR;
      out[to + 1] = values[at + offsetG0] * scaleG0 + values[at + offsetG1] * scaleG1 - shiftG;
      out[to + 2] = values[at + offsetB] * scaleB - shiftB;
      at += 2;
      to += 3;
    }
  }
}
