type Samples = Float32Array | Uint16Array | Uint8Array;

/**
 * Writes the stored raster turned upright into `out` (as many samples; edges swapped for orientations 5 to 8).
 * Walks the stored raster in tiles of 64 x 64, so that a turn by 90° reads and writes within the first-level cache.
 */
export function orientPixels(
  stored: Samples,
  widthPx: number,
  heightPx: number,
  channels: number,
  orientation: number,
  out: Samples,
): void {
  if (stored.length !== widthPx * heightPx * channels || out.length !== stored.length || stored === out) {
    throw new RangeError('orientPixels: sizes differ, or the arrays are the same');
  }
  const swaps = orientation >= 5;
  const uprightWidth = swaps ? heightPx : widthPx;
  // The upright position of stored (row, column) is base + row * perRow + column * perColumn, in pixels.
  const rowFlipped = orientation === 3 || orientation === 4 || orientation === 6 || orientation === 7;
  const columnFlipped = orientation === 2 || orientation === 3 || orientation === 7 || orientation === 8;
  const rowStep = swaps ? 1 : uprightWidth;
  const columnStep = swaps ? uprightWidth : 1;
  const perRow = rowFlipped ? -rowStep : rowStep;
  const perColumn = columnFlipped ? -columnStep : columnStep;
  const base = (rowFlipped ? (heightPx - 1) * rowStep : 0) + (columnFlipped ? (widthPx - 1) * columnStep : 0);

  const tile = 64;
  for (let row0 = 0; row0 < heightPx; row0 += tile) {
    const rowEnd = Math.min(row0 + tile, heightPx);
    for (let column0 = 0; column0 < widthPx; column0 += tile) {
      const columnEnd = Math.min(column0 + tile, widthPx);
      for (let row = row0; row < rowEnd; row++) {
        const from = (row * widthPx + column0) * channels;
        const end = from + (columnEnd - column0) * channels;
        const to = (base + row * perRow + column0 * perColumn) * channels;
        if (channels === 3) turnRow3(stored, from, end, out, to, perColumn * 3);
        else turnRow(stored, from, end, channels, out, to, perColumn * channels);
      }
    }
  }
}

/** Three channels without a loop: half the time. */
function turnRow3(
  stored: Samples,
  from: number,
  end: number,
  out: Samples,
  to: number,
  perPixel: number,
): void {
  let target = to;
  for (let at = from; at < end; at += 3) {
    out[target] = stored[at];
    out[target + 1] = stored[at + 1];
    out[target + 2] = stored[at + 2];
    target += perPixel;
  }
}

function turnRow(
  stored: Samples,
  from: number,
  end: number,
  channels: number,
  out: Samples,
  to: number,
  perPixel: number,
): void {
  let target = to;
  for (let at = from; at < end; at += channels) {
    for (let channel = 0; channel < channels; channel++) out[target + channel] = stored[at + channel];
    target += perPixel;
  }
}
