/**
 * How values differ from their neighbour of the same filter, two columns on, by their level: counts of |difference| in
 * `out[band * differences + min(|difference|, differences - 1)]`. Bands are octaves of the mean above black:
 * band k holds 2^k <= mean < 2^(k + 1), band 0 what is darker as well. One row in `rowStep` is looked at, where every place
 * of the filters takes part.
 *
 * `blacks`: of the four places. `out`: 16 * differences.
 */
export function neighbourNoise(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  blacks: Float64Array,
  rowStep: number,
  differences: number,
  out: Uint32Array,
): void {
  if (values.length < widthPx * heightPx || blacks.length !== 4 || out.length !== 16 * differences) {
    throw new RangeError('neighbourNoise: sizes differ');
  }
  out.fill(0);
  // An odd step looks at even and odd rows in turn.
  const step = rowStep | 1;
  for (let row = 0; row < heightPx; row += step) {
    const start = row * widthPx;
    const place = (row & 1) * 2;
    for (let column = 0; column + 2 < widthPx; column++) {
      const a = values[start + column];
      const b = values[start + column + 2];
      const mean = (a + b) / 2 - blacks[place + (column & 1)];
      const band = mean < 2 ? 0 : 31 - Math.clz32(mean);
      const difference = Math.abs(a - b);
      out[Math.min(15, band) * differences + Math.min(difference, differences - 1)]++;
    }
  }
}
