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
    const wy0 = ((-0.5 * fy + 1) * fy - 0.5) * fy;
    const wy1 = (1.5 * fy - 2.5) * fy * fy + 1;
    const wy2 = ((-1.5 * fy + 2) * fy + 0.5) * fy;
    const wy3 = (0.5 * fy - 0.5) * fy * fy;
    const r0 = (Math.min(toRow, Math.max(fromRow, row - 1)) % bandRows) * stride;
    const r1 = (Math.min(toRow, Math.max(fromRow, row)) % bandRows) * stride;
    const r2 = (Math.min(toRow, Math.max(fromRow, row + 1)) % bandRows) * stride;
    const r3 = (Math.min(toRow, Math.max(fromRow, row + 2)) % bandRows) * stride;
    const gain = gains[i];
    for (let channel = first; channel <= last; channel++) {
      const a0 = c0 + channel;
      const a1 = c1 + channel;
      const a2 = c2 + channel;
      const a3 = c3 + channel;
      // Rows written out: with a loop over them a 24-megapixel frame took a third more in all.
      const s0 = wx0 * band[r0 + a0] + wx1 * band[r0 + a1] + wx2 * band[r0 + a2] + wx3 * band[r0 + a3];
      const s1 = wx0 * band[r1 + a0] + wx1 * band[r1 + a1] + wx2 * band[r1 + a2] + wx3 * band[r1 + a3];
      const s2 = wx0 * band[r2 + a0] + wx1 * band[r2 + a1] + wx2 * band[r2 + a2] + wx3 * band[r2 + a3];
      const s3 = wx0 * band[r3 + a0] + wx1 * band[r3 + a1] + wx2 * band[r3 + a2] + wx3 * band[r3 + a3];
      out[i * 3 + channel] = gain * (wy0 * s0 + wy1 * s1 + wy2 * s2 + wy3 * s3);
    }
  }
}
