import { rootFoot } from './root-scale.ts';

/**
 * Full-size RGB by gradient-corrected linear interpolation (Malvar, He, Cutler 2004; see demosaic-reference.ts, the
 * reference) of `rows` rows into `out`, interleaved.
 *
 * `plane`: the rows on the root scale with a margin of two samples on every side, (width + 4) x (rows + 4). `filters` are
 * those of the 2x2 block whose corner is the first sample *inside* the margin. Interpolated values are held at
 * `saturation` (of R G B): more light than that cannot have been seen.
 */
export function demosaicRows(
  plane: Float32Array,
  width: number,
  rows: number,
  filters: Uint8Array,
  saturation: Float64Array,
  out: Float32Array,
): void {
  const stride = width + 4;
  if (plane.length < stride * (rows + 4) || out.length < width * rows * 3) {
    throw new RangeError('demosaicRows: sizes differ');
  }
  if (filters.length !== 4 || saturation.length !== 3) throw new RangeError('demosaicRows: numbers missing');
  const stride2 = 2 * stride;
  const saturationG = saturation[1];
  for (let row = 0; row < rows; row++) {
    const first = (row & 1) * 2;
    const greenColumn = filters[first] === 1 ? 0 : 1;
    // A row holds green and one colour; the other colour lies in the rows above and below.
    const colour = filters[first + 1 - greenColumn];
    const other = 2 - colour;
    const saturationC = saturation[colour];
    const saturationO = saturation[other];
    const line = (row + 2) * stride + 2;
    const to = row * width * 3;

    for (let column = greenColumn; column < width; column += 2) {
      const at = line + column;
      const green = plane[at];
      const diagonal =
        plane[at - stride - 1] + plane[at - stride + 1] + plane[at + stride - 1] + plane[at + stride + 1];
      const beside2 = plane[at - 2] + plane[at + 2];
      const above2 = plane[at - stride2] + plane[at + stride2];
      const both = 5 * green - diagonal;
      const c = (both + 4 * (plane[at - 1] + plane[at + 1]) - beside2 + 0.5 * above2) * 0.125;
      const o = (both + 4 * (plane[at - stride] + plane[at + stride]) - above2 + 0.5 * beside2) * 0.125;
      const pixel = to + column * 3;
      out[pixel + colour] = Math.min(c * Math.abs(c) - rootFoot, saturationC);
      out[pixel + 1] = green * green - rootFoot;
      out[pixel + other] = Math.min(o * Math.abs(o) - rootFoot, saturationO);
    }
    for (let column = 1 - greenColumn; column < width; column += 2) {
      const at = line + column;
      const own = plane[at];
      const diagonal =
        plane[at - stride - 1] + plane[at - stride + 1] + plane[at + stride - 1] + plane[at + stride + 1];
      const cross = plane[at - 1] + plane[at + 1] + plane[at - stride] + plane[at + stride];
      const cross2 = plane[at - 2] + plane[at + 2] + plane[at - stride2] + plane[at + stride2];
      const green = (4 * own + 2 * cross - cross2) * 0.125;
      const o = (6 * own + 2 * diagonal - 1.5 * cross2) * 0.125;
      const pixel = to + column * 3;
      out[pixel + colour] = own * own - rootFoot;
      out[pixel + 1] = Math.min(green * Math.abs(green) - rootFoot, saturationG);
      out[pixel + other] = Math.min(o * Math.abs(o) - rootFoot, saturationO);
    }
  }
}
