/**
 * Light of `count` points for the channels `first` … `last` of interleaved RGB, by cubic convolution (R. Keys, IEEE Trans.
 * ASSP 29 (1981) 1153-1160, a = -1/2): 4 x 4 pixels around, which gives back exactly what lies on a pixel. Beyond the
 * picture its edge goes on. Reference: `lens/lens-reference.ts`.
 *
 * `band` holds rows of `width` pixels, row y at place y modulo `bandRows`; of those only `fromRow` … `toRow` are there, and
 * others count as the nearest of them. Positions are in pixels of the picture that the band is of.
 */
export function lensSamples(
  band: Float32Array,
  bandRows: number,
  width: number,
  fromRow: number,
  toRow: number,
  xs: Float64Array,
  ys: Float64Array,
  gains: Float64Array,
  count: number,
  first: number,
  last: number,
  out: Float32Array,
): void {
  if (band.length < bandRows * width * 3 || out.length < count * 3 || toRow < fromRow) {
    throw new RangeError('lensSamples: sizes differ');
  }
  if (xs.length < count || ys.length < count || gains.length < count) {
    throw new RangeError('lensSamples: sizes differ');
  }
  const stride = width * 3;
  for (let i = 0; i < count; i++) {
    // Far away is as good as at the edge, and must not leave what an integer holds.
    const x = Math.min(width + 2, Math.max(-3, xs[i]));
    const y = Math.min(toRow + 3, Math.max(fromRow - 3, ys[i]));
    const column = Math.floor(x);
    const row = Math.floor(y);
    const fx = x - column;
    const fy = y - row;
    const wx0 = ((-0.5 * fx + 1) * fx - 0.5) * fx;
    const wx1 = (1.5 * fx - 2.5) * fx * fx + 1;
    const wx2 = ((-1.5 * fx + 2) * fx + 0.5) * fx;
    const wx3 = (0.5 * fx - 0.5) * fx * fx;
    const c0 = Math.min(width - 1, Math.max(0, column - 1)) * 3;
    const c1 = Math.min(width - 1, Math.max(0, column)) * 3;
    const c2 = Math.min(width - 1, Math.max(0, column + 1)) * 3;
    const c3 = Math.min(width - 1, Math.max(0, column + 2)) * 3;
    const gain = gains[i];
    for (let channel = first; channel <= last; channel++) {
      let sum = 0;
      for (let step = 0; step < 4; step++) {
        const wy =
          step === 0
            ? ((-0.5 * fy + 1) * fy - 0.5) * fy
            : step === 1
              ? (1.5 * fy - 2.5) * fy * fy + 1
              : step === 2
                ? ((-1.5 * fy + 2) * fy + 0.5) * fy
                : (0.5 * fy - 0.5) * fy * fy;
        const line = Math.min(toRow, Math.max(fromRow, row - 1 + step));
        const at = (line % bandRows) * stride + channel;
        sum += wy * (wx0 * band[at + c0] + wx1 * band[at + c1] + wx2 * band[at + c2] + wx3 * band[at + c3]);
      }
      out[i * 3 + channel] = sum * gain;
    }
  }
}
