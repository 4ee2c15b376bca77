/** Counts of one filter position: one for each value of 16 bits. */
export const valueCounts = 65_536;

/**
 * How often each value occurs at each of the four places of a 2x2 block: `out[place * valueCounts + value]`, places 0 … 3
 * as the filters are counted. An odd last row or column is left out.
 */
export function countValues(values: Uint16Array, widthPx: number, heightPx: number, out: Uint32Array): void {
  if (values.length < widthPx * heightPx || out.length !== 4 * valueCounts) {
    throw new RangeError('countValues: sizes differ');
  }
  out.fill(0);
  const columns = widthPx & ~1;
  const rows = heightPx & ~1;
  for (let row = 0; row < rows; row++) {
    const start = row * widthPx;
    const first = (row & 1) * 2 * valueCounts;
    const second = first + valueCounts;
    for (let at = start; at < start + columns; at += 2) {
      out[first + values[at]]++;
      out[second + values[at + 1]]++;
    }
  }
}

/** How often each code occurs in each channel of an 8-bit picture: `out[channel * 256 + code]`. */
export function countCodes(rgb: Uint8Array, pixels: number, out: Uint32Array): void {
  if (rgb.length < pixels * 3 || out.length !== 768) throw new RangeError('countCodes: sizes differ');
  out.fill(0);
  for (let at = 0; at < pixels * 3; at += 3) {
    out[rgb[at]]++;
    out[256 + rgb[at + 1]]++;
    out[512 + rgb[at + 2]]++;
  }
}
