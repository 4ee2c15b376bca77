/** One line as `src/keep/JOURNAL.md` says: CRC-32C (RFC 3720, 12.1) of the JSON's bytes, their count, the JSON. */
export function journalLine(record: object): Buffer {
  const json = Buffer.from(JSON.stringify(record));
  return Buffer.concat([
    Buffer.from(`${crc32c(json).toString(16).padStart(8, '0')} ${json.length} `),
    json,
    Buffer.from('\n'),
  ]);
}

/** Reflected polynomial of Castagnoli. */
const polynomial = 0x82f63b78;
const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ polynomial : value >>> 1;
  return value >>> 0;
});

function crc32c(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ (table[(crc ^ byte) & 0xff] ?? 0);
  return (crc ^ 0xffffffff) >>> 0;
}
