/** Mantissas of 2048 lengths: between them log2 is a straight line to 5e-8. */
const bits = 11;
const restBits = 23 - bits;
const table = Float64Array.from({ length: (1 << bits) + 1 }, (_, at) => Math.log2(1 + at / (1 << bits)));
const restMask = (1 << restBits) - 1;
const perRest = 1 / (1 << restBits);

/** From these bits on a float is no number, or without end. */
export const endless = 0x7f800000;

/**
 * log2 of a number > 0 from its bits as a 32-bit float (IEEE 754), within 1e-7: what `Math.log2` takes for millions of
 * values is a good part of a reading.
 */
export function logOfBits(word: number): number {
  const at = (word >>> restBits) & ((1 << bits) - 1);
  const low = table[at];
  return (word >>> 23) - 127 + low + (table[at + 1] - low) * (word & restMask) * perRest;
}

/** The same bytes as whole numbers. */
export function bitsOf(values: Float32Array): Int32Array {
  return new Int32Array(values.buffer, values.byteOffset, values.length);
}
