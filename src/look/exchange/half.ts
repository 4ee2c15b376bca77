/** Values of half floats (IEEE 754 binary16) by their bits; infinities and NaN are held at the largest finite value. */
export function halfToNumber(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 0x1f;
  const fraction = bits & 0x3ff;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  if (exponent === 31) return sign * largestHalf;
  return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}

export const largestHalf = 65_504;
const largestBits = 0x7bff;

/** Where a value lies among the halves of its sign: the bits of the one towards zero, and the share of the way to the next. */
export function halfPosition(value: number): { readonly bits: number; readonly share: number } {
  const size = Math.abs(value);
  const sign = value < 0 ? 0x8000 : 0;
  // NaN too.
  if (!(size > 0)) return { bits: 0, share: 0 };
  if (size >= largestHalf) return { bits: sign | largestBits, share: 0 };
  const bits = size < 2 ** -14 ? Math.floor(size * 2 ** 24) : normalBits(size);
  const low = halfToNumber(bits);
  return { bits: sign | bits, share: (size - low) / (halfToNumber(bits + 1) - low) };
}

function normalBits(size: number): number {
  const guess = Math.floor(Math.log2(size));
  // log2 may round up at a power of two.
  const exponent = 2 ** guess > size ? guess - 1 : guess;
  return ((exponent + 15) << 10) + Math.floor((size / 2 ** exponent - 1) * 1024);
}
