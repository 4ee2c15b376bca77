/** Means of `columns` x `rows` equal parts of a plane, row by row; parts are cut at whole pixels. */
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
  for (let row = 0; row < rows; row++) {
    const top = Math.floor((row * heightPx) / rows);
    const bottom = Math.floor(((row + 1) * heightPx) / rows);
    for (let column = 0; column < columns; column++) {
      const left = Math.floor((column * widthPx) / columns);
      const right = Math.floor(((column + 1) * widthPx) / columns);
      let sum = 0;
      for (let y = top; y < bottom; y++) {
        const start = y * widthPx;
        for (let at = start + left; at < start + right; at++) sum += plane[at];
      }
      out[row * columns + column] = sum / Math.max(1, (bottom - top) * (right - left));
    }
  }
}
