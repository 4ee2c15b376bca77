/** Sums of one step: the upper half of the 4 x 4 equations row by row (10), their right side (4), Σw, Σw e². */
export const alignSums = 16;

/**
 * Equations of one Gauss-Newton step of the inverse compositional kind for a similarity (Baker and Matthews, International
 * Journal of Computer Vision 56, 2004): the slopes are those of the reference, so they never change. Unknowns in turn:
 * change of size and turn about (centreX, centreY), both in units of 1 / `unitPx`, shift in x, shift in y, pixels.
 * Weights are Tukey's biweight of the residual with its end at `endAt` (Beaton and Tukey, Technometrics 16, 1974).
 *
 * `places`: indices row * widthPx + column of the reference; none at its border. `warped`: values of the frame there, NaN
 * where there is none. `out`: {@link alignSums}.
 */
export function sumAlignStep(
  reference: Float32Array,
  widthPx: number,
  places: Int32Array,
  warped: Float32Array,
  centreX: number,
  centreY: number,
  unitPx: number,
  endAt: number,
  out: Float64Array,
): void {
  if (warped.length < places.length || out.length !== alignSums || !(endAt > 0)) {
    throw new RangeError('sumAlignStep: sizes differ');
  }
  out.fill(0);
  const perUnit = 1 / unitPx;
  for (let k = 0; k < places.length; k++) {
    const at = places[k];
    const e = warped[k] - reference[at];
    const share = e / endAt;
    const rest = 1 - share * share;
    // What is no number fails this too.
    if (!(rest > 0)) continue;
    const w = rest * rest;
    const row = Math.floor(at / widthPx);
    const x = (at - row * widthPx - centreX) * perUnit;
    const y = (row - centreY) * perUnit;
    const gx = 0.5 * (reference[at + 1] - reference[at - 1]);
    const gy = 0.5 * (reference[at + widthPx] - reference[at - widthPx]);
    const size = gx * x + gy * y;
    const turn = gy * x - gx * y;
    const we = w * e;
    out[0] += w * size * size;
    out[1] += w * size * turn;
    out[2] += w * size * gx;
    out[3] += w * size * gy;
    out[4] += w * turn * turn;
    out[5] += w * turn * gx;
    out[6] += w * turn * gy;
    out[7] += w * gx * gx;
    out[8] += w * gx * gy;
    out[9] += w * gy * gy;
    out[10] += we * size;
    out[11] += we * turn;
    out[12] += we * gx;
    out[13] += we * gy;
    out[14] += w;
    out[15] += we * e;
  }
}
