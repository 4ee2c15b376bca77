/** Numbers of a cell in the sums of `gatherHints`: light that lost nothing with its weight, light that lost something with its. */
export const sumsOfCell = 8;

/**
 * Adds up, for the cells of a grid, what 2 x 2 blocks of a mosaic show: red, green, blue and weight of bright light that lost
 * no channel; then the same of light that lost one or two. Gives the number of blocks of the second kind. `numbers`: as
 * `binMosaic` has them; `range`: white less black of the four positions; `blocks`: blocks along the edge of a cell.
 */
export function gatherHints(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  numbers: Float64Array,
  range: Float64Array,
  blocks: number,
  cellsAcross: number,
  sums: Float32Array,
): number {
  const across = widthPx >> 1;
  const down = heightPx >> 1;
  if (values.length < widthPx * heightPx || numbers.length < 11 || range.length !== 4)
    throw new RangeError('gatherHints: sizes differ');
  // Shares of the range at which light is lost, and is bright enough to tell.
  const lostAt = [0, 1, 2, 3].map((position) => numbers[position] + 0.9 * range[position]);
  const brightAt = [0, 1, 2, 3].map((position) => numbers[position] + 0.35 * range[position]);
  const [lost0, lost1, lost2, lost3] = lostAt;
  const [bright0, bright1, bright2, bright3] = brightAt;
  const red = numbers[8];
  const blue = numbers[9];
  const green = numbers[10];
  const otherGreen = 6 - red - blue - green;
  const block = new Float64Array(4);
  let lost = 0;
  // Every second block of every second row: a quarter of the time, and sixteen of a cell are plenty.
  for (let row = 0; row < down; row += 2) {
    const line = 2 * row * widthPx;
    const cellRow = Math.floor(row / blocks) * cellsAcross;
    for (let column = 0; column < across; column += 2) {
      const at = line + 2 * column;
      const v0 = values[at];
      const v1 = values[at + 1];
      const v2 = values[at + widthPx];
      const v3 = values[at + widthPx + 1];
      // Nearly all blocks end here.
      if (v0 < bright0 && v1 < bright1 && v2 < bright2 && v3 < bright3) continue;
      const isLost = v0 > lost0 || v1 > lost1 || v2 > lost2 || v3 > lost3;
      // Light that lost everything tells nothing.
      if (isLost && v0 > lost0 && v1 > lost1 && v2 > lost2 && v3 > lost3) continue;
      block[0] = v0;
      block[1] = v1;
      block[2] = v2;
      block[3] = v3;
      let most = 0;
      for (let position = 0; position < 4; position++) {
        const light = block[position] - numbers[position];
        most = Math.max(most, light / range[position]);
        block[position] = Math.max(0, light * numbers[4 + position]);
      }
      // The nearer to being lost, the likelier it is the same light.
      const weight = isLost ? 1 : (most - 0.35) ** 2;
      const cell = (cellRow + Math.floor(column / blocks)) * sumsOfCell + (isLost ? 4 : 0);
      sums[cell] += weight * block[red];
      sums[cell + 1] += (weight * (block[green] + block[otherGreen])) / 2;
      sums[cell + 2] += weight * block[blue];
      sums[cell + 3] += weight;
      if (isLost) lost++;
    }
  }
  return lost;
}

/**
 * Notes the pixels of a row that lost a channel: their index among the row's into `at`, their light into `light`. Gives how
 * many. A row has room for all of its pixels in both.
 */
export function noteLost(
  rgb: Float32Array,
  offset: number,
  count: number,
  saturation: Float64Array,
  at: Int32Array,
  light: Float32Array,
): number {
  if (rgb.length < offset + count * 3 || at.length < count || light.length < count * 3)
    throw new RangeError('noteLost: sizes differ');
  const nearR = 0.9 * saturation[0];
  const nearG = 0.9 * saturation[1];
  const nearB = 0.9 * saturation[2];
  let noted = 0;
  for (let i = 0, from = offset; i < count; i++, from += 3) {
    const r = rgb[from];
    const g = rgb[from + 1];
    const b = rgb[from + 2];
    if (!(r > nearR || g > nearG || b > nearB)) continue;
    at[noted] = i;
    light[noted * 3] = r;
    light[noted * 3 + 1] = g;
    light[noted * 3 + 2] = b;
    noted++;
  }
  return noted;
}

/**
 * Draws the pixels noted, which were rebuilt from themselves alone, towards what light nearby tells of them. Reference:
 * `rebuildHinted` in reference.ts. `cells`: a grid of light, its members as `HighlightHints` has them; a pixel of the row lies at
 * (`x0` + i `stepX`, `y`) of it, whole numbers at its cells' middles.
 */
export function hintLost(
  rgb: Float32Array,
  offset: number,
  noted: number,
  at: Int32Array,
  light: Float32Array,
  saturation: Float64Array,
  cells: Float32Array,
  cellsAcross: number,
  cellsDown: number,
  x0: number,
  stepX: number,
  y: number,
): void {
  if (cells.length < cellsAcross * cellsDown * 5) throw new RangeError('hintLost: sizes differ');
  const heldY = Math.min(cellsDown - 1, Math.max(0, y));
  const row = Math.min(Math.max(0, cellsDown - 2), Math.floor(heldY));
  const down = heldY - row;
  const below = cellsDown > 1 ? cellsAcross * 5 : 0;
  const beside = cellsAcross > 1 ? 5 : 0;
  const hint = new Float64Array(5);
  for (let k = 0; k < noted; k++) {
    const x = Math.min(cellsAcross - 1, Math.max(0, x0 + at[k] * stepX));
    const column = Math.min(Math.max(0, cellsAcross - 2), Math.floor(x));
    const along = x - column;
    const cell = (row * cellsAcross + column) * 5;
    const w00 = (1 - down) * (1 - along);
    const w01 = (1 - down) * along;
    const w10 = down * (1 - along);
    const w11 = down * along;
    for (let i = 0; i < 5; i++) {
      const from = cell + i;
      hint[i] =
        w00 * cells[from] +
        w01 * cells[from + beside] +
        w10 * cells[from + below] +
        w11 * cells[from + below + beside];
    }
    if (!(hint[3] > 0)) continue;
    const hintR = hint[0];
    const hintG = hint[1];
    const hintB = hint[2];
    const belief = hint[3] / hint[4];
    const r = light[k * 3];
    const g = light[k * 3 + 1];
    const b = light[k * 3 + 2];
    const lostR = lost(r / saturation[0]);
    const lostG = lost(g / saturation[1]);
    const lostB = lost(b / saturation[2]);
    const keptR = 1 - lostR;
    const keptG = 1 - lostG;
    const keptB = 1 - lostB;
    const square = keptR * hintR * hintR + keptG * hintG * hintG + keptB * hintB * hintB;
    if (!(square > 1e-9)) continue;
    const scale = (keptR * hintR * r + keptG * hintG * g + keptB * hintB * b) / square;
    const toldR = scale * hintR;
    const toldG = scale * hintG;
    const toldB = scale * hintB;
    const seen = keptR * r + keptG * g + keptB * b;
    const off = keptR * Math.abs(r - toldR) + keptG * Math.abs(g - toldG) + keptB * Math.abs(b - toldB);
    const trust =
      belief *
      smooth(1 - off / (0.25 * seen)) *
      (1 - lostR * (1 - smooth((toldR / r - 0.85) / 0.15))) *
      (1 - lostG * (1 - smooth((toldG / g - 0.85) / 0.15))) *
      (1 - lostB * (1 - smooth((toldB / b - 0.85) / 0.15))) *
      smooth(Math.max(keptR, keptG, keptB) / 0.5);
    if (!(trust > 0)) continue;
    const to = offset + at[k] * 3;
    rgb[to] += trust * (r + lostR * Math.max(0, toldR - r) - rgb[to]);
    rgb[to + 1] += trust * (g + lostG * Math.max(0, toldG - g) - rgb[to + 1]);
    rgb[to + 2] += trust * (b + lostB * Math.max(0, toldB - b) - rgb[to + 2]);
  }
}

function lost(shareOfRange: number): number {
  return smooth((shareOfRange - 0.9) * 10);
}

/** 0 up to 0, 1 from 1 on, smooth between; NaN is 0. */
function smooth(t: number): number {
  if (!(t > 0)) return 0;
  return t >= 1 ? 1 : t * t * (3 - 2 * t);
}
