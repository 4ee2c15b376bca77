/**
 * Writes the transpose of a `widthPx` x `heightPx` plane into `out` (heightPx x widthPx).
 * Tiles of 32 keep both sides in the first-level cache. Neither buffer is kept.
 */
export function transposePlane(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  out: Float32Array,
): void {
  if (plane.length !== widthPx * heightPx || out.length !== plane.length)
    throw new RangeError('plane sizes differ');
  const tile = 32;
  for (let row0 = 0; row0 < heightPx; row0 += tile) {
    const rowEnd = Math.min(row0 + tile, heightPx);
    for (let column0 = 0; column0 < widthPx; column0 += tile) {
      const columnEnd = Math.min(column0 + tile, widthPx);
      for (let row = row0; row < rowEnd; row++) {
        for (let column = column0; column < columnEnd; column++) {
          out[column * heightPx + row] = plane[row * widthPx + column];
        }
      }
    }
  }
}
