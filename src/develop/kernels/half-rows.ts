/** Columns left free on each side of a row of a plane: one for the neighbour beyond the edge, the rest for vectors. */
export const planeMargin = 4;

/**
 * The samples of `count` rows of 2x2 blocks from block row `first` on as four planes, black taken off and balanced: one
 * for each entry of `order` (a position of the block, 0 … 3), `planeLength` samples apart. A row of a plane has
 * `planeMargin` columns on each side; the one next to it holds the edge's sample again. Block rows beyond the mosaic are
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
      planes[to - 1] = planes[to];
      planes[to + outWidth] = planes[to + outWidth - 1];
    }
  }
}

/**
 * Half-size balanced camera RGB of `rows` rows from four planes (see `splitRows`) in the order red, green in red's row,
 * green in red's column, blue; the planes begin one row above. Reference: `halfPixel` in half-reference.ts.
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
    planeLength < (rows + 2) * stride ||
    planes.length < 4 * planeLength ||
    out.length < rows * outWidth * 3
  ) {
    throw new RangeError('halfRows: sizes differ');
  }
  const x = (redPosition & 1) === 0 ? 1 : -1;
  const y = (redPosition & 2) === 0 ? stride : -stride;
  const limitR = saturation[0];
  const limitG = saturation[1];
  const limitB = saturation[2];
  let to = 0;
  for (let row = 0; row < rows; row++) {
    const line = (row + 1) * stride + planeMargin;
    for (let column = 0; column < outWidth; column++) {
      const red = line + column;
      const greenR = red + planeLength;
      const greenC = greenR + planeLength;
      const blue = greenC + planeLength;
      // The sums of half-reference.ts worked out.
      const own = planes[greenR] + planes[greenC];
      const beside = planes[greenR - x] + planes[greenR + y] + planes[greenC - y] + planes[greenC + x];
      const detail =
        4 * (planes[red] + planes[blue]) - around(planes, red, stride) - around(planes, blue, stride);
      const green = 0.375 * own + 0.0625 * beside + 0.03125 * detail;
      const blurR =
        near(planes, greenR, x) +
        far(planes, greenR + y, x) +
        near(planes, greenC, y) +
        far(planes, greenC + x, y);
      const blurB =
        near(planes, greenC, -x) +
        far(planes, greenC - y, -x) +
        near(planes, greenR, -y) +
        far(planes, greenR - x, -y);
      const r = centre(planes, red, x, y) + 0.5 * green - blurR * blurScale;
      const b = centre(planes, blue, -x, -y) + 0.5 * green - blurB * blurScale;
      out[to] = Math.min(limitR, r);
      out[to + 1] = Math.min(limitG, green);
      out[to + 2] = Math.min(limitB, b);
      to += 3;
    }
  }
}

/** The weights of `near` and `far`, twice, are half of it. */
const blurScale = 1 / 1152;

function centre(planes: Float32Array, at: number, x: number, y: number): number {
  return (4 * planes[at] + 2 * planes[at + x] + 2 * planes[at + y] + planes[at + x + y]) / 9;
}

function near(planes: Float32Array, at: number, step: number): number {
  return 84 * planes[at] + 47 * planes[at - step] + 37 * planes[at + step];
}

function far(planes: Float32Array, at: number, step: number): number {
  return 60 * planes[at] + 37 * planes[at - step] + 23 * planes[at + step];
}

function around(planes: Float32Array, at: number, stride: number): number {
  return planes[at - 1] + planes[at + 1] + (planes[at - stride] + planes[at + stride]);
}
