/**
 * CRC-16 of bytes: polynomial 0x1021, start 0xffff, nothing reflected (Recommendation ITU-T V.41 with another start; in
 * the catalogue of parametrised CRC algorithms CRC-16/IBM-3740, whose check value for "123456789" is 0x29b1).
 */
export function crc16(bytes: Uint8Array): number {
  let crc = 0xffff;
  for (const byte of bytes) {
    crc ^= byte << 8;
    for (let bit = 0; bit < 8; bit += 1) {
      crc = (crc & 0x8000) === 0 ? crc << 1 : (crc << 1) ^ 0x1021;
    }
    crc &= 0xffff;
  }
  return crc;
}
