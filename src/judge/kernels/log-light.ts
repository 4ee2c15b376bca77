import { bitsOf, endless, logOfBits } from './fast-log.ts';

/** Binary logarithm of every sample above a floor: equal steps of it are equal ratios of light. */
export function logLight(light: Float32Array, floor: number, out: Float32Array): void {
  if (out.length !== light.length || !(floor > 0)) throw new RangeError('logLight: sizes differ');
  const words = bitsOf(out);
  for (let at = 0; at < light.length; at++) {
    const value = light[at];
    out[at] = Math.max(0, value) + floor;
    // What is no number, or without end, stays so.
    out[at] = words[at] >>> 0 < endless ? logOfBits(words[at]) : Math.log2(out[at]);
  }
}

/** The value that `share` of the samples of all channels lie under, to a 64th of a stop; `light` is linear. */
export function lightAtShare(light: Float32Array, share: number): number {
  const counts = new Uint32Array(64 * 24);
  const words = bitsOf(light);
  for (let at = 0; at < light.length; at++) {
    const step = light[at] > 0 ? Math.floor((logOfBits(words[at]) + 16) * 64) : 0;
    counts[step < 0 ? 0 : step >= counts.length ? counts.length - 1 : step]++;
  }
  let left = share * light.length;
  for (let step = 0; step < counts.length; step++) {
    left -= counts[step];
    if (left <= 0) return 2 ** ((step + 1) / 64 - 16);
  }
  return 2 ** 8;
}
