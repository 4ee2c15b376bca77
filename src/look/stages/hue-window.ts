/**
 * How much a colour belongs to a band of hues: 1 at the band's centre, 0 at `reachDeg` from it and beyond, between them
 * half a cosine wave (the Hann window; F. J. Harris, Proc. IEEE 66 (1978) 51-83), so that borders are smooth. Two bands
 * whose centres lie one reach apart add up to 1 everywhere between them.
 */
export function hueWeight(hueRad: number, centreDeg: number, reachDeg: number): number {
  const awayDeg = Math.abs(wrapDegrees((hueRad * 180) / Math.PI - centreDeg));
  return awayDeg >= reachDeg ? 0 : 0.5 * (1 + Math.cos((Math.PI * awayDeg) / reachDeg));
}

/**
 * How much hue a colour has at all: 0 at grey, where hue is chance, half at OKLCh chroma 0.05, towards 1 for strong
 * colours. Without it a band would break at the grey axis, and noise in greys would be pushed about.
 */
export function hueTrust(chroma: number): number {
  return chroma / (chroma + 0.05);
}

/** An angle within -180 … 180. */
function wrapDegrees(angle: number): number {
  return angle - 360 * Math.round(angle / 360);
}
