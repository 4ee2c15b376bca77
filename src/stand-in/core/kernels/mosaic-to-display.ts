/**
 * Mosaic to a full-size display picture: the linear 5 x 5 demosaic of H. S. Malvar, L. He and R. Cutler, "High-quality
 * linear interpolation for demosaicing of Bayer-patterned color images", ICASSP 2004, figure 2. Kernel; lengths are
 * checked by `core/camera-picture.ts`.
 */
import type { BinInput } from './bin-to-display.ts';

/** Rows and columns the filters reach on each side. */
const reach = 2;

/** Fills `rgb`, interleaved, `widthPx * heightPx` pixels. Both sides of the mosaic are even, 4 or more. */
export function mosaicToDisplay(input: BinInput, rgb: Uint8Array): void {
  const { widthPx, heightPx } = input;
  const rows: Float32Array[] = [];
  for (let k = 0; k < 5; k++) rows.push(new Float32Array(widthPx + 2 * reach));
  for (let row = -reach; row < reach; row++) balanceRow(input, row, rows[(row + 5) % 5]);
  for (let row = 0; row < heightPx; row++) {
    balanceRow(input, row + reach, rows[(row + reach) % 5]);
    displayRow(
      input,
      row,
      rows[(row + 3) % 5],
      rows[(row + 4) % 5],
      rows[row % 5],
      rows[(row + 1) % 5],
      rows[(row + 2) % 5],
      rgb,
    );
  }
}

/** One row in entries of the curve, balanced, cut at the sensor's white; mirrored outside, which keeps the filter's phase. */
function balanceRow(input: BinInput, row: number, out: Float32Array): void {
  const { mosaic, widthPx, heightPx, blackLevels, scale, balance, curve } = input;
  const inside = row < 0 ? -row : row >= heightPx ? 2 * heightPx - 2 - row : row;
  const last = curve.length - 1;
  const from = inside * widthPx;
  const odd = inside & 1;
  const evenScale = scale * (odd === 0 ? balance[0] : 1);
  const oddScale = scale * (odd === 0 ? 1 : balance[2]);
  const evenBlack = blackLevels[odd * 2];
  const oddBlack = blackLevels[odd * 2 + 1];
  for (let column = 0; column < widthPx; column += 2) {
    const a = (mosaic[from + column] - evenBlack) * evenScale;
    const b = (mosaic[from + column + 1] - oddBlack) * oddScale;
    out[reach + column] = Math.min(a, last);
    out[reach + column + 1] = Math.min(b, last);
  }
  for (let k = 1; k <= reach; k++) {
    out[reach - k] = out[reach + k];
    out[reach + widthPx - 1 + k] = out[reach + widthPx - 1 - k];
  }
}

/** `up2` ... `down2`: the five rows around `row`, padded by `reach`. */
function displayRow(
  input: BinInput,
  row: number,
  up2: Float32Array,
  up: Float32Array,
  here: Float32Array,
  down: Float32Array,
  down2: Float32Array,
  rgb: Uint8Array,
): void {
  const { widthPx, toDisplay, curve } = input;
  const last = curve.length - 1;
  const [rr, rg, rb, gr, gg, gb, br, bg, bb] = toDisplay;
  const blueRow = row & 1;
  let to = row * widthPx * 3;
  for (let column = 0; column < widthPx; column++, to += 3) {
    const x = column + reach;
    const centre = here[x];
    const beside = here[x - 1] + here[x + 1];
    const over = up[x] + down[x];
    const corners = up[x - 1] + up[x + 1] + down[x - 1] + down[x + 1];
    const farBeside = here[x - 2] + here[x + 2];
    const farOver = up2[x] + down2[x];
    let red: number;
    let green: number;
    let blue: number;
    if ((column & 1) === blueRow) {
      const other = (6 * centre + 2 * corners - 1.5 * (farBeside + farOver)) * 0.125;
      green = (4 * centre + 2 * (beside + over) - (farBeside + farOver)) * 0.125;
      red = blueRow === 0 ? centre : other;
      blue = blueRow === 0 ? other : centre;
    } else {
      const along = (5 * centre + 4 * beside - corners - farBeside + 0.5 * farOver) * 0.125;
      const across = (5 * centre + 4 * over - corners - farOver + 0.5 * farBeside) * 0.125;
      green = centre;
      red = blueRow === 0 ? along : across;
      blue = blueRow === 0 ? across : along;
    }
    const r = rr * red + rg * green + rb * blue;
    const g = gr * red + gg * green + gb * blue;
    const b = br * red + bg * green + bb * blue;
    rgb[to] = curve[r <= 0 ? 0 : r >= last ? last : (r + 0.5) | 0];
    rgb[to + 1] = curve[g <= 0 ? 0 : g >= last ? last : (g + 0.5) | 0];
    rgb[to + 2] = curve[b <= 0 ? 0 : b >= last ? last : (b + 0.5) | 0];
  }
}
