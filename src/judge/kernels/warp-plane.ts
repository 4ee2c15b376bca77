/**
 * Values of `plane` at places that a similarity sends others to: (x, y) goes to (re x - im y + tx, im x + re y + ty), both
 * in pixels with 0 at the middle of the first one. Cubic convolution with a = -1/2 (Keys, IEEE Transactions on Acoustics,
 * Speech, and Signal Processing 29, 1981). Places within one pixel of the border and outside give NaN.
 *
 * `places`: indices row * acrossPx + column of the places that are wanted. `out`: one value for each.
 */
export function warpPlaces(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  places: Int32Array,
  acrossPx: number,
  re: number,
  im: number,
  tx: number,
  ty: number,
  out: Float32Array,
): void {
  if (plane.length < widthPx * heightPx || out.length < places.length || acrossPx < 1) {
    throw new RangeError('warpPlaces: sizes differ');
  }
  for (let k = 0; k < places.length; k++) {
    const place = places[k];
    const y = Math.floor(place / acrossPx);
    const x = place - y * acrossPx;
    const u = re * x - im * y + tx;
    const v = im * x + re * y + ty;
    // What is no number fails this too.
    if (!(u >= 1 && v >= 1 && u < widthPx - 2 && v < heightPx - 2)) {
      out[k] = Number.NaN;
      continue;
    }
    const left = Math.floor(u);
    const top = Math.floor(v);
    const s = u - left;
    const t = v - top;
    const s2 = s * s;
    const t2 = t * t;
    const a0 = 0.5 * s * (2 * s - 1 - s2);
    const a1 = 1 - 2.5 * s2 + 1.5 * s * s2;
    const a2 = 0.5 * s + 2 * s2 - 1.5 * s * s2;
    const a3 = 0.5 * s2 * (s - 1);
    const b0 = 0.5 * t * (2 * t - 1 - t2);
    const b1 = 1 - 2.5 * t2 + 1.5 * t * t2;
    const b2 = 0.5 * t + 2 * t2 - 1.5 * t * t2;
    const b3 = 0.5 * t2 * (t - 1);
    const p = (top - 1) * widthPx + left - 1;
    const q = p + widthPx;
    const r = q + widthPx;
    const w = r + widthPx;
    out[k] =
      b0 * (a0 * plane[p] + a1 * plane[p + 1] + a2 * plane[p + 2] + a3 * plane[p + 3]) +
      b1 * (a0 * plane[q] + a1 * plane[q + 1] + a2 * plane[q + 2] + a3 * plane[q + 3]) +
      b2 * (a0 * plane[r] + a1 * plane[r + 1] + a2 * plane[r + 2] + a3 * plane[r + 3]) +
      b3 * (a0 * plane[w] + a1 * plane[w + 1] + a2 * plane[w + 2] + a3 * plane[w + 3]);
  }
}
