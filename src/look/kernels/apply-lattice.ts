/** A lattice as `applyLattice` takes it: its shapers as samples, which cost no logarithm. */
export interface LatticeNumbers {
  readonly size: number;
  /** size^3 x 3, red slowest. */
  readonly values: Float32Array;
  /** Position 0 … 1 for light (i / last)^2. */
  readonly into: Float32Array;
  /** Light for the positions from `outLow` to `outHigh`, evenly. */
  readonly outOf: Float32Array;
  readonly outLow: number;
  readonly outHigh: number;
}

/**
 * Takes `count` pixels of light 0 … 1 through a lattice, in place. Reference: `lookUpLattice` in the room `look`.
 * Six ways through a cell, one for each order of the fractions; only the two corners between are looked for.
 */
export function applyLattice(rgb: Float32Array, count: number, lattice: LatticeNumbers): void {
  const { size, values, into, outOf, outLow, outHigh } = lattice;
  if (rgb.length < count * 3 || values.length !== size ** 3 * 3 || into.length < 2 || outOf.length < 2) {
    throw new RangeError('applyLattice: sizes differ');
  }
  const strideR = size * size * 3;
  const strideG = size * 3;
  const cells = size - 1;
  const intoLast = into.length - 1;
  const outLast = outOf.length - 1;
  const toOut = outLast / (outHigh - outLow);
  const end = count * 3;
  for (let i = 0; i < end; i += 3) {
    const r = position(rgb[i], into, intoLast) * cells;
    const g = position(rgb[i + 1], into, intoLast) * cells;
    const b = position(rgb[i + 2], into, intoLast) * cells;
    const nodeR = Math.min(cells - 1, r | 0);
    const nodeG = Math.min(cells - 1, g | 0);
    const nodeB = Math.min(cells - 1, b | 0);
    const fr = r - nodeR;
    const fg = g - nodeG;
    const fb = b - nodeB;
    const black = nodeR * strideR + nodeG * strideG + nodeB * 3;
    const white = black + strideR + strideG + 3;

    let first = black;
    let second = black;
    let f1 = 0;
    let f2 = 0;
    let f3 = 0;
    if (fr >= fg) {
      if (fg >= fb) {
        first += strideR;
        second += strideR + strideG;
        f1 = fr;
        f2 = fg;
        f3 = fb;
      } else if (fr >= fb) {
        first += strideR;
        second += strideR + 3;
        f1 = fr;
        f2 = fb;
        f3 = fg;
      } else {
        first += 3;
        second += strideR + 3;
        f1 = fb;
        f2 = fr;
        f3 = fg;
      }
    } else if (fr >= fb) {
      first += strideG;
      second += strideR + strideG;
      f1 = fg;
      f2 = fr;
      f3 = fb;
    } else if (fg >= fb) {
      first += strideG;
      second += strideG + 3;
      f1 = fg;
      f2 = fb;
      f3 = fr;
    } else {
      first += 3;
      second += strideG + 3;
      f1 = fb;
      f2 = fg;
      f3 = fr;
    }
    const w0 = 1 - f1;
    const w1 = f1 - f2;
    const w2 = f2 - f3;
    for (let channel = 0; channel < 3; channel++) {
      const value =
        w0 * values[black + channel] +
        w1 * values[first + channel] +
        w2 * values[second + channel] +
        f3 * values[white + channel];
      const at = (value - outLow) * toOut;
      const index = Math.min(outLast - 1, Math.max(0, at | 0));
      const before = outOf[index];
      rgb[i + channel] = before + (outOf[index + 1] - before) * (at - index);
    }
  }
}

function position(light: number, into: Float32Array, last: number): number {
  if (!(light > 0)) return 0;
  if (light >= 1) return 1;
  const at = Math.sqrt(light) * last;
  const index = at | 0;
  const before = into[index];
  return before + (into[index + 1] - before) * (at - index);
}
