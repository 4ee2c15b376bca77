/**
 * CRC-32C (Castagnoli) of bytes, as an unsigned 32-bit number.
 * Polynomial 0x1EDC6F41, reflected in and out, start and final exclusive-or all ones (RFC 3720 section 12.1).
 * A byte-wise table: journal lines are a few hundred bytes, so nothing faster is wanted.
 */
export function crc32c(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) {
    crc = table[(crc ^ bytes[i]) & 0xff] ^ (crc >>> 8);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** The polynomial with its bits reversed, as the right-shifting form needs it. */
const reversedPolynomial = 0x82f63b78;

const table: Uint32Array = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ reversedPolynomial : crc >>> 1;
  return crc;
});
