/** Columns left free on each side of a row of a plane: two for the neighbours beyond the edge, the rest for vectors. */
export const planeMargin = 4;

/**
 * The samples of `count` rows of 2x2 blocks from block row `first` on as four planes, black taken off and balanced: one
 * for each entry of `order` (a position of the block, 0 … 3), `planeLength` samples apart. A row of a plane has
 * `planeMargin` columns on each side; the two next to it hold the edge's sample again. Block rows beyond the mosaic are
 * those at its edge.
 *
 * `numbers` (length 8 or more): black of positions 0-3, scale of positions 0-3.
 */
export function splitRows(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  first: number,
  count: number,
  numbers: Float64Array,
  order: Uint8Array,
  planes: Float32Array,
  planeLength: number,
): void {
  const outWidth = widthPx >> 1;
  const lastRow = (heightPx >> 1) - 1;
  const stride = outWidth + 2 * planeMargin;
  if (planeLength < count * stride || planes.length < 4 * planeLength || values.length < widthPx * heightPx) {
    throw new RangeError('splitRows: sizes differ');
  }
  for (let plane = 0; plane < 4; plane++) {
    const position = order[plane];
    const scale = numbers[4 + position];
    const shift = numbers[position] * scale;
    for (let row = 0; row < count; row++) {
      const blockRow = Math.min(lastRow, Math.max(0, first + row));
      const from = (2 * blockRow + (position >> 1)) * widthPx + (position & 1);
      const to = plane * planeLength + row * stride + planeMargin;
      for (let column = 0; column < outWidth; column++) {
        planes[to + column] = values[from + 2 * column] * scale - shift;
      }
      planes.fill(planes[to], to - 2, to);
      planes.fill(planes[to + outWidth - 1], to + outWidth, to + outWidth + 2);
    }
  }
}

/**
 * Half-size balanced camera RGB of `rows` rows from four planes (see `splitRows`) in the order red, green in red's row,
 * green in red's column, blue; the planes begin two rows above, and two more behind them are filled on the way. Reference:
 * `halfPixel` in half-reference.ts.
 *
 * `redPosition` is red's in the block; blue lies across from it. `saturation`: where R G B end.
 */
export function halfRows(
  planes: Float32Array,
  planeLength: number,
  outWidth: number,
  rows: number,
  redPosition: number,
  saturation: Float64Array,
  out: Float32Array,
): void {
  const stride = outWidth + 2 * planeMargin;
  if (
    planeLength < (rows + 4) * stride ||
    planes.length < 6 * planeLength ||
    out.length < rows * outWidth * 3
  ) {
    throw new RangeError('halfRows: sizes differ');
  }
  const x = (redPosition & 1) === 0 ? 1 : -1;
  const y = (redPosition & 2) === 0 ? stride : -stride;
  for (let row = 0; row < rows + 2; row++) {
    // One column beyond the edge on each side.
    const red = (row + 1) * stride + planeMargin - 1;
    const greenR = red + planeLength;
    const greenC = greenR + planeLength;
    const blue = greenC + planeLength;
    greenAbove(planes, red, greenR, x, greenC, y, blue + planeLength, outWidth + 2);
    greenAbove(planes, blue, greenC, -x, greenR, -y, blue + 2 * planeLength, outWidth + 2);
  }
  const limitR = saturation[0];
  const limitG = saturation[1];
  const limitB = saturation[2];
  let to = 0;
  for (let row = 0; row < rows; row++) {
    const line = (row + 2) * stride + planeMargin;
    for (let column = 0; column < outWidth; column++) {
      const red = line + column;
      const blue = red + 3 * planeLength;
      const overRed = blue + planeLength;
      const overBlue = overRed + planeLength;
      // The sums of half-reference.ts worked out.
      const colours = planes[red] + planes[blue];
      const beside = around(planes, red, stride) + around(planes, blue, stride);
      const there = planes[red + planeLength] + planes[red + 2 * planeLength];
      const higher = planes[overRed] + planes[overBlue];
      const green = 0.25 * (there + higher) + (0.3125 * colours - 0.015625 * beside);
      out[to] = Math.min(limitR, green - centre(planes, overRed, x, y));
      out[to + 1] = Math.min(limitG, green);
      out[to + 2] = Math.min(limitB, green - centre(planes, overBlue, -x, -y));
      to += 3;
    }
  }
}

/**
 * What green is higher than the `count` samples from `own` on, into `to`: from its two greens in the row (`inRow` and x
 * before it), the two in the column, or between.
 */
function greenAbove(
  planes: Float32Array,
  own: number,
  inRow: number,
  x: number,
  inColumn: number,
  y: number,
  to: number,
  count: number,
): void {
  for (let i = 0; i < count; i++) {
    const sample = planes[own + i];
    const left = planes[inRow + i];
    const right = planes[inRow + i - x];
    const upper = planes[inColumn + i];
    const lower = planes[inColumn + i - y];
    const beside = 0.5 * (left + right);
    const above = 0.5 * (upper + lower);
    const unlikeBeside = Math.abs(sample - beside) + 0.5 * Math.abs(left - right);
    const unlikeAbove = Math.abs(sample - above) + 0.5 * Math.abs(upper - lower);
    const floor = 0.002 + 0.05 * Math.max(0, beside + above);
    const squareBeside = floor * floor + unlikeBeside * unlikeBeside;
    const squareAbove = floor * floor + unlikeAbove * unlikeAbove;
    const share = squareAbove / (squareBeside + squareAbove);
    planes[to + i] = above - sample + (beside - above) * share;
  }
}

function centre(planes: Float32Array, at: number, x: number, y: number): number {
  return (4 * planes[at] + 2 * (planes[at + x] + planes[at + y]) + planes[at + x + y]) / 9;
}

function around(planes: Float32Array, at: number, stride: number): number {
  return planes[at - 1] + planes[at + 1] + (planes[at - stride] + planes[at + stride]);
}
