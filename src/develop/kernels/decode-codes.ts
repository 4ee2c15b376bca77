/** Linear light of `count` bytes from `offset` on, through a table of 256 values, into the start of `out`. */
export function decodeCodes8(
  codes: Uint8Array,
  offset: number,
  count: number,
  table: Float32Array,
  out: Float32Array,
): void {
  if (codes.length < offset + count || out.length < count || table.length !== 256) {
    throw new RangeError('decodeCodes8: sizes differ');
  }
  for (let i = 0; i < count; i++) out[i] = table[codes[offset + i]];
}
