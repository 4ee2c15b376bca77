/**
 * Balanced colour of a mosaic over blocks of `factor` x `factor` bins of 2x2 samples, interleaved red, green, blue.
 *
 * `numbers`: black of the four places, scale of the four places (a green's already halved), channel of the four places.
 * `out` has floor(binsAcross / factor) x floor(binsDown / factor) pixels.
 */
export function blockColourOfMosaic(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  factor: number,
  numbers: Float64Array,
  out: Float32Array,
): void {
  const columns = Math.floor((widthPx >> 1) / factor);
  const rows = Math.floor((heightPx >> 1) / factor);
  if (values.length < widthPx * heightPx || numbers.length !== 12 || out.length !== columns * rows * 3) {
    throw new RangeError('blockColourOfMosaic: sizes differ');
  }
  if (factor === 2 && blocksOfFour(values, widthPx, columns, rows, numbers, out)) return;
  out.fill(0);
  const step = 2 * factor;
  const share = 1 / (factor * factor);
  for (let y = 0; y < rows * step; y++) {
    const line = y * widthPx;
    const outLine = Math.floor(y / step) * columns * 3;
    for (let half = 0; half < 2; half++) {
      const place = ((y & 1) << 1) + half;
      const black = numbers[place];
      const scale = numbers[4 + place] * share;
      const channel = numbers[8 + place];
      for (let column = 0; column < columns; column++) {
        let sum = 0;
        const start = line + column * step + half;
        for (let at = start; at < start + step; at += 2) sum += values[at];
        out[outLine + column * 3 + channel] += (sum - factor * black) * scale;
      }
    }
  }
}

/**
 * The usual size in one go: each pixel from its 4 x 4 samples, added in the order of their rows as 32-bit floats, as above.
 * False where the green of a row is not the one channel that both rows have.
 */
function blocksOfFour(
  values: Uint16Array,
  widthPx: number,
  columns: number,
  rows: number,
  numbers: Float64Array,
  out: Float32Array,
): boolean {
  const [upper, lower] = [numbers[8] === 1 ? 0 : 1, numbers[10] === 1 ? 0 : 1];
  const [first, second] = [numbers[9 - upper], numbers[11 - lower]];
  if (numbers[8 + upper] !== 1 || numbers[10 + lower] !== 1 || first + second !== 2 || first === 1)
    return false;
  const [greenUp, greenDown, otherUp, otherDown] = [upper, 2 + lower, 1 - upper, 3 - lower];
  const [blackGreenUp, blackGreenDown] = [2 * numbers[greenUp], 2 * numbers[greenDown]];
  const [blackUp, blackDown] = [2 * numbers[otherUp], 2 * numbers[otherDown]];
  const [scaleGreenUp, scaleGreenDown] = [numbers[4 + greenUp] / 4, numbers[4 + greenDown] / 4];
  const [scaleUp, scaleDown] = [numbers[4 + otherUp] / 4, numbers[4 + otherDown] / 4];
  let to = 0;
  for (let row = 0; row < rows; row++) {
    let up = 4 * row * widthPx;
    for (let column = 0; column < columns; column++, up += 4, to += 3) {
      const down = up + widthPx;
      const up2 = down + widthPx;
      const down2 = up2 + widthPx;
      let green = Math.fround((values[up + upper] + values[up + upper + 2] - blackGreenUp) * scaleGreenUp);
      green = Math.fround(
        green + (values[down + lower] + values[down + lower + 2] - blackGreenDown) * scaleGreenDown,
      );
      green = Math.fround(
        green + (values[up2 + upper] + values[up2 + upper + 2] - blackGreenUp) * scaleGreenUp,
      );
      out[to + 1] =
        green + (values[down2 + lower] + values[down2 + lower + 2] - blackGreenDown) * scaleGreenDown;
      const above = up + 1 - upper;
      const above2 = up2 + 1 - upper;
      const before = Math.fround((values[above] + values[above + 2] - blackUp) * scaleUp);
      out[to + first] = before + (values[above2] + values[above2 + 2] - blackUp) * scaleUp;
      const below = down + 1 - lower;
      const below2 = down2 + 1 - lower;
      const behind = Math.fround((values[below] + values[below + 2] - blackDown) * scaleDown);
      out[to + second] = behind + (values[below2] + values[below2 + 2] - blackDown) * scaleDown;
    }
  }
  return true;
}

/** The same of an 8-bit picture: linear light over blocks of `factor` x `factor` pixels. `decode`: 256 values. */
export function blockColourOfPicture(
  rgb: Uint8Array,
  widthPx: number,
  heightPx: number,
  factor: number,
  decode: Float64Array,
  out: Float32Array,
): void {
  const columns = Math.floor(widthPx / factor);
  const rows = Math.floor(heightPx / factor);
  if (rgb.length < widthPx * heightPx * 3 || decode.length !== 256 || out.length !== columns * rows * 3) {
    throw new RangeError('blockColourOfPicture: sizes differ');
  }
  out.fill(0);
  const share = 1 / (factor * factor);
  for (let y = 0; y < rows * factor; y++) {
    const outLine = Math.floor(y / factor) * columns * 3;
    let from = y * widthPx * 3;
    for (let column = 0; column < columns; column++) {
      const to = outLine + column * 3;
      for (let k = 0; k < factor; k++, from += 3) {
        out[to] += decode[rgb[from]] * share;
        out[to + 1] += decode[rgb[from + 1]] * share;
        out[to + 2] += decode[rgb[from + 2]] * share;
      }
    }
  }
}

/** Means of 2 x 2 pixels of three channels; `out` has floor(widthPx / 2) x floor(heightPx / 2) pixels. */
export function halveColour(data: Float32Array, widthPx: number, heightPx: number, out: Float32Array): void {
  const columns = widthPx >> 1;
  const rows = heightPx >> 1;
  if (data.length < widthPx * heightPx * 3 || out.length !== columns * rows * 3) {
    throw new RangeError('halveColour: sizes differ');
  }
  const line = widthPx * 3;
  for (let row = 0; row < rows; row++) {
    let to = row * columns * 3;
    let from = row * 2 * line;
    for (let column = 0; column < columns; column++, from += 6) {
      for (let k = 0; k < 3; k++, to++) {
        const at = from + k;
        out[to] = (data[at] + data[at + 3] + data[at + line] + data[at + line + 3]) / 4;
      }
    }
  }
}
