import { ringMargin, ringStart } from './ring-rows.ts';
import { rootFoot } from './root-scale.ts';

/**
 * The steps of the directional demosaic on one row, each into its ring (ring-rows.ts), without objects or branches per
 * pixel. What they mean, and the paper they come from, is told in demosaic-reference.ts, which they are tested against.
 *
 * All are on the root scale. `colourColumn` is the first column, 0 or 1, whose pixel is of the row's colour (the others are green).
 */

/** Added to a squared unrest, so that a flat neighbourhood divides by something. */
export const unrestFloor = 1e-4;

/** Green minus the row's colour, as the row itself tells it and as the columns tell it. */
export function differenceRow(
  root: Float32Array,
  row: number,
  stride: number,
  colourColumn: number,
  inRow: Float32Array,
  inColumn: Float32Array,
): void {
  const at = ringStart(row, stride);
  const up2 = ringStart(row - 2, stride) - at;
  const up = ringStart(row - 1, stride) - at;
  const down = ringStart(row + 1, stride) - at;
  const down2 = ringStart(row + 2, stride) - at;
  const end = at + stride - 2;
  for (let first = 0; first < 2; first++) {
    const sign = first === colourColumn ? 1 : -1;
    for (let i = at + 2 + first; i < end; i += 2) {
      const own = 0.5 * root[i];
      inRow[i] = sign * (0.5 * (root[i - 1] + root[i + 1]) - 0.25 * (root[i - 2] + root[i + 2]) - own);
      inColumn[i] =
        sign * (0.5 * (root[i + up] + root[i + down]) - 0.25 * (root[i + up2] + root[i + down2]) - own);
    }
  }
}

/** How much the differences change along their own direction; that of the columns is summed over three columns. */
export function unrestRow(
  inRow: Float32Array,
  inColumn: Float32Array,
  row: number,
  stride: number,
  unrestInRow: Float32Array,
  unrestInColumn: Float32Array,
): void {
  const at = ringStart(row, stride);
  const up = ringStart(row - 1, stride) - at;
  const down = ringStart(row + 1, stride) - at;
  const start = at + 3;
  const end = at + stride - 3;
  let before = Math.abs(inColumn[start - 1 + up] - inColumn[start - 1 + down]);
  let here = Math.abs(inColumn[start + up] - inColumn[start + down]);
  for (let i = start; i < end; i++) {
    const behind = Math.abs(inColumn[i + 1 + up] - inColumn[i + 1 + down]);
    unrestInRow[i] = Math.abs(inRow[i - 1] - inRow[i + 1]);
    unrestInColumn[i] = before + here + behind;
    before = here;
    here = behind;
  }
}

/** Green minus the row's colour at its colour's pixels: the mean of four sides, the calmer the side the more it counts. */
export function blendRow(
  inRow: Float32Array,
  inColumn: Float32Array,
  unrestInRow: Float32Array,
  unrestInColumn: Float32Array,
  row: number,
  stride: number,
  colourColumn: number,
  width: number,
  difference: Float32Array,
): void {
  const at = ringStart(row, stride);
  const up3 = ringStart(row - 3, stride) - at;
  const up2 = ringStart(row - 2, stride) - at;
  const up = ringStart(row - 1, stride) - at;
  const down = ringStart(row + 1, stride) - at;
  const down2 = ringStart(row + 2, stride) - at;
  const down3 = ringStart(row + 3, stride) - at;
  const end = at + ringMargin + width + 4;
  const r = unrestInRow;
  const c = unrestInColumn;
  for (let i = at + ringMargin - 4 + colourColumn; i < end; i += 2) {
    const north = c[i] + c[i + up] + c[i + up2] + c[i + up3];
    const south = c[i] + c[i + down] + c[i + down2] + c[i + down3];
    const own = r[i] + r[i + up] + r[i + down];
    const left = r[i - 1] + r[i - 1 + up] + r[i - 1 + down];
    const left2 = r[i - 2] + r[i - 2 + up] + r[i - 2 + down];
    const left3 = r[i - 3] + r[i - 3 + up] + r[i - 3 + down];
    const right = r[i + 1] + r[i + 1 + up] + r[i + 1 + down];
    const right2 = r[i + 2] + r[i + 2 + up] + r[i + 2 + down];
    const right3 = r[i + 3] + r[i + 3 + up] + r[i + 3 + down];
    const west = own + left + left2 + left3;
    const east = own + right + right2 + right3;
    const wN = 1 / (unrestFloor + north * north);
    const wS = 1 / (unrestFloor + south * south);
    const wW = 1 / (unrestFloor + west * west);
    const wE = 1 / (unrestFloor + east * east);
    const dN = inColumn[i + up] + inColumn[i + up2];
    const dS = inColumn[i + down] + inColumn[i + down2];
    const dW = inRow[i - 1] + inRow[i - 2];
    const dE = inRow[i + 1] + inRow[i + 2];
    const ownSides = (wN + wS) * inColumn[i] + (wW + wE) * inRow[i];
    const farSides = wN * dN + wS * dS + wW * dW + wE * dE;
    difference[i] = (0.5 * ownSides + 0.25 * farSides) / (wN + wS + wW + wE);
  }
}

/** Green minus the other colour at the pixels of the row's colour, from those on the diagonals. */
export function crossRow(
  difference: Float32Array,
  row: number,
  stride: number,
  colourColumn: number,
  width: number,
  cross: Float32Array,
): void {
  const at = ringStart(row, stride);
  const up3 = ringStart(row - 3, stride) - at;
  const up = ringStart(row - 1, stride) - at;
  const down = ringStart(row + 1, stride) - at;
  const down3 = ringStart(row + 3, stride) - at;
  const end = at + ringMargin + width + 2;
  const d = difference;
  for (let i = at + ringMargin - 2 + colourColumn; i < end; i += 2) {
    const near = d[i + up - 1] + d[i + up + 1] + (d[i + down - 1] + d[i + down + 1]);
    const above = d[i + up3 - 1] + d[i + up3 + 1] + (d[i + down3 - 1] + d[i + down3 + 1]);
    const beside = d[i + up - 3] + d[i + up + 3] + (d[i + down - 3] + d[i + down + 3]);
    cross[i] = 0.3125 * near - 0.03125 * (above + beside);
  }
}

/**
 * A row of balanced light, interleaved, at `to` of `out`. `colour` (0 or 2) is the colour in the row. Interpolated values
 * are held at `saturation` (of R G B): more light than that cannot have been seen.
 */
export function colourRow(
  root: Float32Array,
  difference: Float32Array,
  cross: Float32Array,
  row: number,
  stride: number,
  colourColumn: number,
  colour: number,
  width: number,
  saturation: Float64Array,
  out: Float32Array,
  to: number,
): void {
  const at = ringStart(row, stride) + ringMargin;
  const up = ringStart(row - 1, stride) + ringMargin - at;
  const down = ringStart(row + 1, stride) + ringMargin - at;
  const other = 2 - colour;
  const limitC = saturation[colour];
  const limitG = saturation[1];
  const limitO = saturation[other];
  for (let x = 1 - colourColumn; x < width; x += 2) {
    const i = at + x;
    const green = root[i];
    const c = green - 0.25 * (difference[i - 1] + difference[i + 1] + (cross[i + up] + cross[i + down]));
    const o = green - 0.25 * (cross[i - 1] + cross[i + 1] + (difference[i + up] + difference[i + down]));
    const pixel = to + x * 3;
    out[pixel + colour] = Math.min(c * Math.abs(c) - rootFoot, limitC);
    out[pixel + 1] = green * green - rootFoot;
    out[pixel + other] = Math.min(o * Math.abs(o) - rootFoot, limitO);
  }
  for (let x = colourColumn; x < width; x += 2) {
    const i = at + x;
    const own = root[i];
    const green = own + difference[i];
    const o = green - cross[i];
    const pixel = to + x * 3;
    out[pixel + colour] = own * own - rootFoot;
    out[pixel + 1] = Math.min(green * Math.abs(green) - rootFoot, limitG);
    out[pixel + other] = Math.min(o * Math.abs(o) - rootFoot, limitO);
  }
}
