/** Renderings made small for the disk: what is left of each code after guessing it from its neighbours. */

/**
 * Residuals of RGB interleaved codes against the median predictor of LOCO-I (M. Weinberger et al., IEEE Transactions
 * on Image Processing 9(8), 2000), zigzag-coded, low bytes first, then high bytes: `residuals` is twice as long as
 * `codes`. High bytes are nearly all zero, which a general compressor makes vanish.
 */
export function codesToResiduals(codes: Uint16Array, rowLength: number, residuals: Uint8Array): void {
  const high = codes.length;
  for (let at = 0; at < high; at++) {
    const left = at % rowLength < 3 ? 0 : codes[at - 3];
    const above = at < rowLength ? 0 : codes[at - rowLength];
    const corner = at < rowLength || at % rowLength < 3 ? 0 : codes[at - rowLength - 3];
    const rest = ((codes[at] - guess(left, above, corner)) << 16) >> 16;
    const folded = ((rest << 1) ^ (rest >> 31)) & 0xffff;
    residuals[at] = folded & 0xff;
    residuals[high + at] = folded >> 8;
  }
}

/** The inverse of {@link codesToResiduals}. */
export function residualsToCodes(residuals: Uint8Array, rowLength: number, codes: Uint16Array): void {
  const high = codes.length;
  for (let at = 0; at < high; at++) {
    const left = at % rowLength < 3 ? 0 : codes[at - 3];
    const above = at < rowLength ? 0 : codes[at - rowLength];
    const corner = at < rowLength || at % rowLength < 3 ? 0 : codes[at - rowLength - 3];
    const folded = residuals[at] | (residuals[high + at] << 8);
    codes[at] = guess(left, above, corner) + ((folded >> 1) ^ -(folded & 1));
  }
}

function guess(left: number, above: number, corner: number): number {
  const low = Math.min(left, above);
  const high = Math.max(left, above);
  return Math.max(low, Math.min(high, left + above - corner));
}
