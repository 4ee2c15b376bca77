/**
 * Rounds `count` numbers to half floats (IEEE 754 binary16, bits as u16), to the nearest, ties to even. What is larger
 * than the largest half (65504), infinities too, is held there; NaN becomes 0.
 */
export function toHalves(
  values: Float32Array,
  from: number,
  count: number,
  out: Uint16Array,
  to: number,
): void {
  if (values.length < from + count || out.length < to + count) throw new RangeError('toHalves: sizes differ');
  for (let i = 0; i < count; i++) {
    const value = values[from + i];
    const sign = value < 0 ? 0x8000 : 0;
    const size = value < 0 ? -value : value;
    let bits = 0;
    if (size >= 65_504) {
      bits = 0x7bff;
    } else if (size >= 2 ** -14) {
      scratch[0] = size;
      // The exponent's bias goes from 127 to 15, the fraction from 23 bits to 10.
      const word = scratchBits[0] - (112 << 23);
      bits = (word + 0xfff + ((word >> 13) & 1)) >> 13;
    } else if (size > 0) {
      // Adding 1.5 x 2^23 units of 2^-24 rounds to them as the machine rounds: to the nearest, ties to even.
      scratch[0] = size * 2 ** 24 + 12_582_912;
      bits = scratch[0] - 12_582_912;
    }
    out[to + i] = sign | bits;
  }
}

const scratch = new Float32Array(1);
const scratchBits = new Uint32Array(scratch.buffer);

/** The values of half floats, exactly. Infinities and NaN, which `toHalves` never makes, come out as 65536 and more. */
export function fromHalves(
  halves: Uint16Array,
  from: number,
  count: number,
  out: Float32Array,
  to: number,
): void {
  if (halves.length < from + count || out.length < to + count)
    throw new RangeError('fromHalves: sizes differ');
  for (let i = 0; i < count; i++) {
    const bits = halves[from + i];
    const size = bits & 0x7fff;
    let value = 0;
    if (size >= 0x400) {
      scratchBits[0] = (size << 13) + (112 << 23);
      value = scratch[0];
    } else {
      value = size * 2 ** -24;
    }
    out[to + i] = bits > 0x7fff ? -value : value;
  }
}
