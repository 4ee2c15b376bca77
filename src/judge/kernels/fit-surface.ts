/** 1, x, y, x², xy, y²: unknowns of a surface of the second order; its sums: 6 x 6 equations and 6 right sides. */
export const surfaceTerms = 6;
export const surfaceSums = 42;

/**
 * Equations of the surface of the second order through the values that count. Places run from -1 to 1 over the width and
 * over the height. `counting`: not 0 where a value counts. `out`: 36 of the matrix row by row, then the 6 right sides.
 */
export function sumSurface(
  plane: Float32Array,
  counting: Uint8Array,
  widthPx: number,
  heightPx: number,
  out: Float64Array,
): void {
  const count = widthPx * heightPx;
  if (plane.length < count || counting.length < count || out.length !== surfaceSums) {
    throw new RangeError('sumSurface: sizes differ');
  }
  // Of x and y to the powers in the names; the matrix holds each several times.
  let [one, x1, y1, x2, xy, y2, x3, x2y, xy2, y3, x4, x3y, x2y2, xy3, y4] = new Float64Array(15);
  let [v, vx, vy, vxx, vxy, vyy] = new Float64Array(6);
  for (let row = 0, at = 0; row < heightPx; row++) {
    const y = (2 * row + 1) / heightPx - 1;
    for (let column = 0; column < widthPx; column++, at++) {
      if (counting[at] === 0) continue;
      const x = (2 * column + 1) / widthPx - 1;
      const value = plane[at];
      const xx = x * x;
      const yy = y * y;
      const both = x * y;
      one += 1;
      x1 += x;
      y1 += y;
      x2 += xx;
      xy += both;
      y2 += yy;
      x3 += xx * x;
      x2y += xx * y;
      xy2 += x * yy;
      y3 += yy * y;
      x4 += xx * xx;
      x3y += xx * both;
      x2y2 += xx * yy;
      xy3 += both * yy;
      y4 += yy * yy;
      v += value;
      vx += value * x;
      vy += value * y;
      vxx += value * xx;
      vxy += value * both;
      vyy += value * yy;
    }
  }
  out.set([one, x1, y1, x2, xy, y2]);
  out.set([x1, x2, xy, x3, x2y, xy2], 6);
  out.set([y1, xy, y2, x2y, xy2, y3], 12);
  out.set([x2, x3, x2y, x4, x3y, x2y2], 18);
  out.set([xy, x2y, xy2, x3y, x2y2, xy3], 24);
  out.set([y2, xy2, y3, x2y2, xy3, y4], 30);
  out.set([v, vx, vy, vxx, vxy, vyy], 36);
}

/** What is left of a plane when a surface is taken off. `surface`: its 6 factors, in the order of {@link surfaceTerms}. */
export function offSurface(
  plane: Float32Array,
  surface: Float64Array,
  widthPx: number,
  heightPx: number,
  out: Float32Array,
): void {
  const count = widthPx * heightPx;
  if (plane.length < count || surface.length !== surfaceTerms || out.length < count) {
    throw new RangeError('offSurface: sizes differ');
  }
  const [one, byX, byY, byXX, byXY, byYY] = surface;
  for (let row = 0, at = 0; row < heightPx; row++) {
    const y = (2 * row + 1) / heightPx - 1;
    for (let column = 0; column < widthPx; column++, at++) {
      const x = (2 * column + 1) / widthPx - 1;
      out[at] = plane[at] - (one + x * (byX + x * byXX + y * byXY) + y * (byY + y * byYY));
    }
  }
}
