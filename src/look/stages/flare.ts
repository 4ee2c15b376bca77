/**
 * Takes flare out of one channel of scene light: the veil of stray light that lens and camera lay over the picture (ISO
 * 9358 states it as veiling glare, a share of white). Far above the veil it is subtracted, and white stays white:
 *
 *     y = (1 + f) x^2 / (x + f)        x > 0
 *
 * A plain x - f would put noise and shadows below zero; this one goes to zero with a slope of zero. Our own formula.
 * `flare` 0 is the identity. Values at or below zero, which hold no light, become 0 unless `flare` is 0.
 */
export function removeFlare(scene: number, flare: number): number {
  if (flare === 0) return scene;
  return scene <= 0 ? 0 : ((1 + flare) * scene * scene) / (scene + flare);
}

/** The inverse, for finding where a curve behind it reaches white. */
export function addFlare(clean: number, flare: number): number {
  const half = clean / (2 * (1 + flare));
  return half + Math.sqrt(half * half + 2 * half * flare);
}
