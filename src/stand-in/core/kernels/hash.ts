/**
 * Counter-based randomness: the same seed and index give the same number whichever worker asks, in any order.
 * Mixer: `lowbias32` by C. Wellons, "Prospecting for Hash Functions" (2018), public domain.
 */
export function hash32(seed: number, index: number): number {
  let x = (Math.imul(index, 0x9e3779b9) ^ seed) >>> 0;
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return (x ^ (x >>> 16)) >>> 0;
}

/** Uniform in 0 … 1, 1 excluded. */
export function uniform(seed: number, index: number): number {
  return hash32(seed, index) / 4_294_967_296;
}
