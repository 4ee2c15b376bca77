/** Edge of a block that slopes are summed over, pixels of the plane. */
export const slopeBlockPx = 8;
/** Sums of one block: gx², gy², gx gy, and the same energy times column and row, for its middle. */
export const slopeSums = 5;

/**
 * Structure of light in blocks of {@link slopeBlockPx}: sums over central differences (v[+1] - v[-1]).
 * `out[(blockRow * blocksAcross + blockColumn) * slopeSums + k]`: k = 0 Σgx², 1 Σgy², 2 Σgxgy, 3 Σ(gx²+gy²)·column,
 * 4 Σ(gx²+gy²)·row, in pixels of the plane. What does not fill a block at the right and at the bottom is left out, as is
 * the outermost pixel all around.
 */
export function slopeBlocks(plane: Float32Array, widthPx: number, heightPx: number, out: Float64Array): void {
  const across = Math.floor(widthPx / slopeBlockPx);
  const down = Math.floor(heightPx / slopeBlockPx);
  if (plane.length < widthPx * heightPx || out.length < across * down * slopeSums) {
    throw new RangeError('slopeBlocks: sizes differ');
  }
  out.fill(0);
  for (let blockRow = 0; blockRow < down; blockRow++) {
    const firstRow = Math.max(1, blockRow * slopeBlockPx);
    const endRow = Math.min(heightPx - 1, (blockRow + 1) * slopeBlockPx);
    for (let blockColumn = 0; blockColumn < across; blockColumn++) {
      const firstColumn = Math.max(1, blockColumn * slopeBlockPx);
      const endColumn = Math.min(widthPx - 1, (blockColumn + 1) * slopeBlockPx);
      let xx = 0;
      let yy = 0;
      let xy = 0;
      let ex = 0;
      let ey = 0;
      for (let row = firstRow; row < endRow; row++) {
        const start = row * widthPx;
        for (let column = firstColumn; column < endColumn; column++) {
          const at = start + column;
          const gx = plane[at + 1] - plane[at - 1];
          const gy = plane[at + widthPx] - plane[at - widthPx];
          const gxx = gx * gx;
          const gyy = gy * gy;
          const energy = gxx + gyy;
          xx += gxx;
          yy += gyy;
          xy += gx * gy;
          ex += energy * column;
          ey += energy * row;
        }
      }
      const to = (blockRow * across + blockColumn) * slopeSums;
      out[to] = xx;
      out[to + 1] = yy;
      out[to + 2] = xy;
      out[to + 3] = ex;
      out[to + 4] = ey;
    }
  }
}
