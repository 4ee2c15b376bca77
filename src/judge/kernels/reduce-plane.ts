import { bitsOf, endless, logOfBits } from './fast-log.ts';

/**
 * Means of whole blocks of `factor` x `factor` values; what does not fill a block at the right and at the bottom is left
 * out. `out`: floor(widthPx / factor) * floor(heightPx / factor) values. A place x of `out` is the place
 * factor * x + (factor - 1) / 2 of the plane.
 */
export function reducePlane(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  factor: number,
  out: Float32Array,
): void {
  const across = Math.floor(widthPx / factor);
  const down = Math.floor(heightPx / factor);
  if (plane.length < widthPx * heightPx || out.length < across * down) {
    throw new RangeError('reducePlane: sizes differ');
  }
  const share = 1 / (factor * factor);
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < across; column++) {
      let sum = 0;
      for (let y = 0; y < factor; y++) {
        const start = (row * factor + y) * widthPx + column * factor;
        // The usual ones: a loop of so few turns costs more than what is in it.
        if (factor === 2) {
          sum += plane[start] + plane[start + 1];
          continue;
        }
        if (factor === 3) {
          sum += plane[start];
          sum += plane[start + 1];
          sum += plane[start + 2];
          continue;
        }
        if (factor === 4) {
          sum += plane[start] + plane[start + 1] + plane[start + 2] + plane[start + 3];
          continue;
        }
        for (let at = start; at < start + factor; at++) sum += plane[at];
      }
      out[row * across + column] = sum * share;
    }
  }
}

/** log2 of light above black with a floor added: `out[k] = log2(max(plane[k], 0) + floor)`, `floor` > 0. May be in place. */
export function logPlane(plane: Float32Array, floor: number, out: Float32Array): void {
  if (out.length < plane.length || !(floor > 0)) throw new RangeError('logPlane: sizes differ or no floor');
  const words = bitsOf(out);
  for (let at = 0; at < plane.length; at++) {
    out[at] = Math.max(0, plane[at]) + floor;
    // What is no number, or without end, stays so.
    out[at] = words[at] >>> 0 < endless ? logOfBits(words[at]) : Math.log2(out[at]);
  }
}
