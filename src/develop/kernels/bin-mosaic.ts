/**
 * Balanced camera RGB of the half-size rows `rowStart` … `rowEnd - 1` into `out` (interleaved, from its start).
 * Reference: `binBlock`, then `rebuildHighlights` or `clipHighlights`, in reference.ts.
 *
 * `numbers` (length 14): black of positions 0-3, scale of positions 0-3, saturation of R G B, then the positions of red,
 * blue and the first green; the second green is the one left over.
 */
export function binMosaic(
  values: Uint16Array,
  widthPx: number,
  rowStart: number,
  rowEnd: number,
  numbers: Float64Array,
  rebuild: boolean,
  out: Float32Array,
): void {
  const outWidth = widthPx >> 1;
  if (values.length < 2 * rowEnd * widthPx || out.length < (rowEnd - rowStart) * outWidth * 3) {
    throw new RangeError('binMosaic: sizes differ');
  }
  if (numbers.length !== 14) throw new RangeError('binMosaic: 14 numbers expected');
  const red = numbers[11];
  const blue = numbers[12];
  const green0 = numbers[13];
  const green1 = 6 - red - blue - green0;
  const offsetR = (red >> 1) * widthPx + (red & 1);
  const offsetB = (blue >> 1) * widthPx + (blue & 1);
  const offsetG0 = (green0 >> 1) * widthPx + (green0 & 1);
  const offsetG1 = (green1 >> 1) * widthPx + (green1 & 1);
  const scaleR = numbers[4 + red];
  const scaleB = numbers[4 + blue];
  const scaleG0 = numbers[4 + green0] / 2;
  const scaleG1 = numbers[4 + green1] / 2;
  const shiftR = numbers[red] * scaleR;
  const shiftB = numbers[blue] * scaleB;
  const shiftG = numbers[green0] * scaleG0 + numbers[green1] * scaleG1;
  const saturationR = numbers[8];
  const saturationG = numbers[9];
  const saturationB = numbers[10];
  const nearR = 0.9 * saturationR;
  const nearG = 0.9 * saturationG;
  const nearB = 0.9 * saturationB;

  let to = 0;
  for (let row = rowStart; row < rowEnd; row++) {
    let at = 2 * row * widthPx;
    for (let column = 0; column < outWidth; column++) {
      let r = values[at + offsetR] * scaleR - shiftR;
      let g = values[at + offsetG0] * scaleG0 + values[at + offsetG1] * scaleG1 - shiftG;
      let b = values[at + offsetB] * scaleB - shiftB;
      at += 2;
      if (!rebuild) {
        r = Math.min(1, r);
        g = Math.min(1, g);
        b = Math.min(1, b);
      } else if (r > nearR || g > nearG || b > nearB) {
        const lostR = lost(r / saturationR);
        const lostG = lost(g / saturationG);
        const lostB = lost(b / saturationB);
        const r1 = r + lostR * Math.max(0, lostG * (b - r), lostB * (g - r));
        const g1 = g + lostG * Math.max(0, lostB * (r - g), lostR * (b - g));
        const b1 = b + lostB * Math.max(0, lostG * (r - b), lostR * (g - b));
        r = r1 + lostR * Math.max(0, Math.min(g1, b1) - r1);
        g = g1 + lostG * Math.max(0, (r1 + b1) * 0.5 - g1);
        b = b1 + lostB * Math.max(0, Math.min(r1, g1) - b1);
        const all = lostR * lostG * lostB;
        if (all > 0) {
          const brightest = Math.max(r, g, b);
          r += all * (brightest - r);
          g += all * (brightest - g);
          b += all * (brightest - b);
        }
      }
      out[to] = r;
      out[to + 1] = g;
      out[to + 2] = b;
      to += 3;
    }
  }
}

function lost(shareOfRange: number): number {
  if (shareOfRange <= 0.9) return 0;
  if (shareOfRange >= 1) return 1;
  const t = (shareOfRange - 0.9) * 10;
  return t * t * (3 - 2 * t);
}
