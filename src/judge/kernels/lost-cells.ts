/**
 * Marks the cells in which a 2x2 block of a mosaic has lost light: in `out` (columns * rows) the `bits` of the four places
 * whose samples reach their `limits` are put together. `mask`: of half the mosaic's size, 1 where a block has any.
 */
export function lostCellsOfMosaic(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  limits: Float64Array,
  bits: Uint8Array,
  mask: Uint8Array,
  columns: number,
  rows: number,
  out: Uint8Array,
): void {
  const across = widthPx >> 1;
  const down = heightPx >> 1;
  if (
    mask.length < across * down ||
    out.length < columns * rows ||
    limits.length !== 4 ||
    bits.length !== 4
  ) {
    throw new RangeError('lostCellsOfMosaic: sizes differ');
  }
  const columnOf = cellOfEach(across, columns);
  let at = 0;
  for (let row = 0; row < down; row++) {
    const cells = Math.floor((row * rows) / down) * columns;
    for (let column = 0; column < across; column++, at++) {
      if (mask[at] === 0) continue;
      const first = 2 * row * widthPx + 2 * column;
      const second = first + widthPx;
      let lost = 0;
      if (values[first] >= limits[0]) lost |= bits[0];
      if (values[first + 1] >= limits[1]) lost |= bits[1];
      if (values[second] >= limits[2]) lost |= bits[2];
      if (values[second + 1] >= limits[3]) lost |= bits[3];
      out[cells + columnOf[column]] |= lost;
    }
  }
}

/** The same of an 8-bit picture: a channel at its last code. `bits`: of red, green and blue; `mask`: of the picture's size. */
export function lostCellsOfPicture(
  rgb: Uint8Array,
  widthPx: number,
  heightPx: number,
  bits: Uint8Array,
  mask: Uint8Array,
  columns: number,
  rows: number,
  out: Uint8Array,
): void {
  if (mask.length < widthPx * heightPx || out.length < columns * rows || bits.length !== 3) {
    throw new RangeError('lostCellsOfPicture: sizes differ');
  }
  const columnOf = cellOfEach(widthPx, columns);
  let at = 0;
  for (let row = 0; row < heightPx; row++) {
    const cells = Math.floor((row * rows) / heightPx) * columns;
    for (let column = 0; column < widthPx; column++, at++) {
      if (mask[at] === 0) continue;
      let lost = 0;
      if (rgb[3 * at] === 255) lost |= bits[0];
      if (rgb[3 * at + 1] === 255) lost |= bits[1];
      if (rgb[3 * at + 2] === 255) lost |= bits[2];
      out[cells + columnOf[column]] |= lost;
    }
  }
}

function cellOfEach(across: number, columns: number): Uint16Array {
  return Uint16Array.from({ length: across }, (_, column) => Math.floor((column * columns) / across));
}
