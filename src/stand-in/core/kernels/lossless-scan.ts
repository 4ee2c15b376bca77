/**
 * The entropy-coded part of a lossless JPEG (ITU-T T.81 annex H, process 14), two components side by side, predictor
 * 1. Kernel; lengths are checked by `core/lossless-jpeg.ts`.
 *
 * A component's samples lie two columns apart, so that red is foretold from red and green from green. The first sample
 * of a row is foretold from the one above it, the very first from `firstPrediction` (H.1.2.1).
 */

/** Adds to `counts[category]`, 17 entries, how many differences fall into each category of table H.2. */
export function countCategories(
  mosaic: Uint16Array,
  widthPx: number,
  firstPrediction: number,
  counts: Uint32Array,
): void {
  for (let start = 0; start < mosaic.length; start += widthPx) {
    let even = start === 0 ? firstPrediction : mosaic[start - widthPx];
    let odd = start === 0 ? firstPrediction : mosaic[start - widthPx + 1];
    for (let at = start; at < start + widthPx; at += 2) {
      const first = mosaic[at];
      const second = mosaic[at + 1];
      // Differences are taken modulo 65,536 (H.1.2.1), and the shifts bring them back to -32,768 ... 32,767.
      const a = ((first - even) << 16) >> 16;
      const b = ((second - odd) << 16) >> 16;
      counts[32 - Math.clz32(a < 0 ? -a : a)]++;
      counts[32 - Math.clz32(b < 0 ? -b : b)]++;
      even = first;
      odd = second;
    }
  }
}

/**
 * Writes the scan into `out` from `at` and answers where it ends. `bits[difference & 0xffff]` is the code with its
 * additional bits, `lengths[...]` how many bits that is, at most 32: one look-up a sample instead of three steps.
 */
export function writeScan(
  mosaic: Uint16Array,
  widthPx: number,
  firstPrediction: number,
  bits: Uint32Array,
  lengths: Uint8Array,
  out: Uint8Array,
  at: number,
): number {
  // Whole bytes are taken out of `held` after each code, so it holds 7 bits at most before the next.
  let held = 0;
  let heldBits = 0;
  let to = at;
  let even = firstPrediction;
  let odd = firstPrediction;
  for (let index = 0, column = 0; index < mosaic.length; index++) {
    const sample = mosaic[index];
    const difference = (sample - ((index & 1) === 0 ? even : odd)) & 0xffff;
    if ((index & 1) === 0) even = sample;
    else odd = sample;
    let code = bits[difference];
    let left = lengths[difference];
    if (left > 24) {
      // 31 bits hold no more than 7 and 24: a rare long code goes in two parts.
      const high = left - 16;
      held = (held << high) | (code >>> 16);
      heldBits += high;
      while (heldBits >= 8) {
        heldBits -= 8;
        const byte = (held >> heldBits) & 255;
        out[to++] = byte;
        if (byte === 255) out[to++] = 0;
      }
      held &= (1 << heldBits) - 1;
      code &= 0xffff;
      left = 16;
    }
    held = (held << left) | code;
    heldBits += left;
    while (heldBits >= 8) {
      heldBits -= 8;
      const byte = (held >> heldBits) & 255;
      out[to++] = byte;
      // F.1.2.3: a byte of ones is followed by a zero, so that it is no marker.
      if (byte === 255) out[to++] = 0;
    }
    held &= (1 << heldBits) - 1;
    if (++column === widthPx) {
      column = 0;
      even = mosaic[index + 1 - widthPx];
      odd = mosaic[index + 2 - widthPx];
    }
  }
  if (heldBits > 0) {
    // F.1.2.3: the last byte is filled up with ones.
    const byte = ((held << (8 - heldBits)) | ((1 << (8 - heldBits)) - 1)) & 255;
    out[to++] = byte;
    if (byte === 255) out[to++] = 0;
  }
  return to;
}
