/**
 * Means of `columns` x `rows` equal parts of a plane, row by row; parts are cut at whole pixels.
 *
 * Four parts at a time: an addition waits for the one before it, and four sums that know nothing of each other fill the
 * wait. Each adds its values in the order they lie in.
 */
export function blockMeans(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  columns: number,
  rows: number,
  out: Float64Array,
): void {
  if (plane.length < widthPx * heightPx || out.length !== columns * rows) {
    throw new RangeError('blockMeans: sizes differ');
  }
  const lefts = new Int32Array(columns + 1);
  for (let column = 0; column <= columns; column++) lefts[column] = Math.floor((column * widthPx) / columns);
  const shortest = Math.floor(widthPx / columns);
  out.fill(0);
  for (let row = 0; row < rows; row++) {
    const top = Math.floor((row * heightPx) / rows);
    const bottom = Math.floor(((row + 1) * heightPx) / rows);
    const to = row * columns;
    for (let y = top; y < bottom; y++) {
      const start = y * widthPx;
      let column = 0;
      for (; column + 4 <= columns; column += 4) {
        const at0 = start + lefts[column];
        const at1 = start + lefts[column + 1];
        const at2 = start + lefts[column + 2];
        const at3 = start + lefts[column + 3];
        let a = out[to + column];
        let b = out[to + column + 1];
        let c = out[to + column + 2];
        let d = out[to + column + 3];
        for (let k = 0; k < shortest; k++) {
          a += plane[at0 + k];
          b += plane[at1 + k];
          c += plane[at2 + k];
          d += plane[at3 + k];
        }
        // A part may be one pixel longer than another.
        for (let at = at0 + shortest; at < at1; at++) a += plane[at];
        for (let at = at1 + shortest; at < at2; at++) b += plane[at];
        for (let at = at2 + shortest; at < at3; at++) c += plane[at];
        for (let at = at3 + shortest; at < start + lefts[column + 4]; at++) d += plane[at];
        out[to + column] = a;
        out[to + column + 1] = b;
        out[to + column + 2] = c;
        out[to + column + 3] = d;
      }
      for (; column < columns; column++) {
        let sum = out[to + column];
        for (let at = start + lefts[column]; at < start + lefts[column + 1]; at++) sum += plane[at];
        out[to + column] = sum;
      }
    }
    for (let column = 0; column < columns; column++) {
      out[to + column] /= Math.max(1, (bottom - top) * (lefts[column + 1] - lefts[column]));
    }
  }
}
