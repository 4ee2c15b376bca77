/**
 * Highlights of `count` pixels of balanced camera RGB rebuilt in place. Reference: `rebuildHighlights` in reference.ts.
 * `saturation`: where R G B end.
 */
export function rebuildStrip(rgb: Float32Array, count: number, saturation: Float64Array): void {
  if (rgb.length < count * 3 || saturation.length !== 3) throw new RangeError('rebuildStrip: sizes differ');
  const saturationR = saturation[0];
  const saturationG = saturation[1];
  const saturationB = saturation[2];
  const nearR = 0.9 * saturationR;
  const nearG = 0.9 * saturationG;
  const nearB = 0.9 * saturationB;
  const end = count * 3;
  for (let i = 0; i < end; i += 3) {
    let r = rgb[i];
    let g = rgb[i + 1];
    let b = rgb[i + 2];
    if (!(r > nearR || g > nearG || b > nearB)) continue;
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
    const brightest = Math.max(r, g, b);
    rgb[i] = r + all * (brightest - r);
    rgb[i + 1] = g + all * (brightest - g);
    rgb[i + 2] = b + all * (brightest - b);
  }
}

/** Hard limit of `count` samples. Reference: `clipHighlights` in reference.ts. */
export function clipStrip(rgb: Float32Array, count: number): void {
  if (rgb.length < count) throw new RangeError('clipStrip: sizes differ');
  for (let i = 0; i < count; i++) if (rgb[i] > 1) rgb[i] = 1;
}

function lost(shareOfRange: number): number {
  if (shareOfRange <= 0.9) return 0;
  if (shareOfRange >= 1) return 1;
  const t = (shareOfRange - 0.9) * 10;
  return t * t * (3 - 2 * t);
}
