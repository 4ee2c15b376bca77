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
  out.fill(0);
  const terms = new Float64Array(surfaceTerms);
  for (let at = 0; at < count; at++) {
    if (counting[at] === 0) continue;
    const row = Math.floor(at / widthPx);
    setTerms(terms, at - row * widthPx, row, widthPx, heightPx);
    const value = plane[at];
    for (let i = 0; i < surfaceTerms; i++) {
      for (let j = 0; j < surfaceTerms; j++) out[i * surfaceTerms + j] += terms[i] * terms[j];
      out[36 + i] += terms[i] * value;
    }
  }
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
  const terms = new Float64Array(surfaceTerms);
  for (let at = 0; at < count; at++) {
    const row = Math.floor(at / widthPx);
    setTerms(terms, at - row * widthPx, row, widthPx, heightPx);
    let value = 0;
    for (let i = 0; i < surfaceTerms; i++) value += terms[i] * surface[i];
    out[at] = plane[at] - value;
  }
}

function setTerms(terms: Float64Array, column: number, row: number, widthPx: number, heightPx: number): void {
  const x = (2 * column + 1) / widthPx - 1;
  const y = (2 * row + 1) / heightPx - 1;
  terms[0] = 1;
  terms[1] = x;
  terms[2] = y;
  terms[3] = x * x;
  terms[4] = x * y;
  terms[5] = y * y;
}
