type Samples = Float32Array | Uint16Array | Uint8Array;

/**
 * Writes the stored raster turned upright into `out` (as many samples; edges swapped for orientations 5 to 8).
 * Walks the stored raster in tiles of 32 x 32, so that a turn by 90° reads and writes within the first-level cache.
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

  const tile = 32;
  for (let row0 = 0; row0 < heightPx; row0 += tile) {
    const rowEnd = Math.min(row0 + tile, heightPx);
    for (let column0 = 0; column0 < widthPx; column0 += tile) {
      const columnEnd = Math.min(column0 + tile, widthPx);
      for (let row = row0; row < rowEnd; row++) {
        let from = (row * widthPx + column0) * channels;
        for (let column = column0; column < columnEnd; column++) {
          const to = (base + row * perRow + column * perColumn) * channels;
          for (let channel = 0; channel < channels; channel++) out[to + channel] = stored[from++];
        }
      }
    }
  }
}
