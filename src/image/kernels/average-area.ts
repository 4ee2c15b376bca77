/**
 * Adds the rows `rowStart` … `rowEnd - 1` of a picture to its reduction by area averaging: each reduced pixel is the mean
 * of the area it covers, border pixels counted by the share of them that lies inside.
 *
 * Reduction is a sum, so a picture may come strip by strip: `strip` holds only those rows (interleaved RGB, linear
 * light), `out` (outWidthPx x outHeightPx x 3) starts as zeros and is finished once every row was added.
 */
export function averageArea(
  strip: Float32Array,
  widthPx: number,
  heightPx: number,
  rowStart: number,
  rowEnd: number,
  out: Float32Array,
  outWidthPx: number,
  outHeightPx: number,
): void {
  if (strip.length < (rowEnd - rowStart) * widthPx * 3 || out.length !== outWidthPx * outHeightPx * 3) {
    throw new RangeError('averageArea: sizes differ');
  }
  if (outWidthPx > widthPx || outHeightPx > heightPx) throw new RangeError('averageArea: cannot enlarge');
  const scaleY = outHeightPx / heightPx;
  const line = new Float32Array(outWidthPx * 3);
  for (let row = rowStart; row < rowEnd; row++) {
    averageLine(strip, (row - rowStart) * widthPx * 3, widthPx, line, outWidthPx);
    // The row covers [top, bottom) in units of reduced rows: at most two of them, since scaleY <= 1.
    const top = row * scaleY;
    const bottom = Math.min(outHeightPx, (row + 1) * scaleY);
    const first = Math.min(outHeightPx - 1, Math.floor(top + 1e-9));
    const border = first + 1;
    if (bottom <= border + 1e-9) {
      addLine(line, bottom - top, out, first * outWidthPx * 3);
    } else {
      addLine(line, border - top, out, first * outWidthPx * 3);
      addLine(line, bottom - border, out, border * outWidthPx * 3);
    }
  }
}

function averageLine(
  rgb: Float32Array,
  offset: number,
  widthPx: number,
  line: Float32Array,
  outWidthPx: number,
): void {
  const perOut = widthPx / outWidthPx;
  const weight = 1 / perOut;
  for (let column = 0; column < outWidthPx; column++) {
    const left = column * perOut;
    const right = Math.min(widthPx, left + perOut);
    const first = Math.floor(left);
    const last = Math.min(widthPx - 1, Math.ceil(right) - 1);
    let at = offset + first * 3;
    let share = Math.min(first + 1, right) - left;
    let r = rgb[at] * share;
    let g = rgb[at + 1] * share;
    let b = rgb[at + 2] * share;
    for (let x = first + 1; x <= last; x++) {
      at += 3;
      share = Math.min(1, right - x);
      r += rgb[at] * share;
      g += rgb[at + 1] * share;
      b += rgb[at + 2] * share;
    }
    line[column * 3] = r * weight;
    line[column * 3 + 1] = g * weight;
    line[column * 3 + 2] = b * weight;
  }
}

function addLine(line: Float32Array, weight: number, out: Float32Array, offset: number): void {
  for (let i = 0; i < line.length; i++) out[offset + i] += line[i] * weight;
}
