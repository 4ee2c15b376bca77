import type { Vector3 } from '../../colour/index.ts';
import type { Stage } from '../stages/stage.ts';
import { type Shaper, shape, unshape } from './shaper.ts';

/**
 * A function of colours at `size`^3 nodes, red slowest, blue fastest (the order of CLF, Academy S-2014-006). Nodes lie
 * evenly on the scale of `into`; values stand on that of `outOf`.
 */
export interface Lattice {
  readonly size: number;
  readonly into: Shaper;
  readonly outOf: Shaper;
  /** size^3 x 3. */
  readonly values: Float32Array<ArrayBuffer>;
}

/**
 * Values are rounded to 2^-18 of the scale, far below what an eye or a 16-bit file can tell, so that two machines whose
 * powers differ in the last digit make the same table.
 */
const grid = 2 ** 18;

/** Samples a function. 33^3 nodes take some tens of milliseconds. */
export function sampleLattice(size: number, into: Shaper, outOf: Shaper, f: Stage): Lattice {
  const light = Array.from({ length: size }, (_, node) => unshape(into, node / (size - 1)));
  const values = new Float32Array(size ** 3 * 3);
  let at = 0;
  for (const r of light) {
    for (const g of light) {
      for (const b of light) {
        for (const value of f([r, g, b])) values[at++] = Math.round(shape(outOf, value) * grid) / grid;
      }
    }
  }
  return { size, into, outOf, values };
}

/** The lattice at any colour, light in and out; colours beyond its ends are held there. The plain form of the kernels. */
export function lookUpLattice(lattice: Lattice, [r, g, b]: Vector3): Vector3 {
  const { into, outOf } = lattice;
  const shaped: Vector3 = [shape(into, r), shape(into, g), shape(into, b)];
  const [outR, outG, outB] = interpolate(lattice.values, lattice.size, shaped);
  return [unshape(outOf, outR), unshape(outOf, outG), unshape(outOf, outB)];
}

/**
 * Tetrahedral interpolation (Academy S-2014-006, appendix A): the cell's cube falls into six tetrahedra along its diagonal
 * from black to white, one for each order of the three fractions; within one, the value is linear. Positions 0 … 1.
 */
export function interpolate(values: ArrayLike<number>, size: number, position: Vector3): Vector3 {
  const cells = position.map((p) => Math.min(1, Math.max(0, p)) * (size - 1));
  const nodes = cells.map((cell) => Math.min(size - 2, Math.floor(cell)));
  const strides = [size * size * 3, size * 3, 3];
  const steps = cells
    .map((cell, axis) => ({ fraction: cell - (nodes[axis] ?? 0), stride: strides[axis] ?? 0 }))
    .sort((first, second) => second.fraction - first.fraction);
  let at = nodes.reduce((sum, node, axis) => sum + node * (strides[axis] ?? 0), 0);
  const value = (channel: number): number => values[at + channel] ?? 0;
  const out: [number, number, number] = [value(0), value(1), value(2)];
  for (const { fraction, stride } of steps) {
    const before: Vector3 = [value(0), value(1), value(2)];
    at += stride;
    out[0] += fraction * (value(0) - before[0]);
    out[1] += fraction * (value(1) - before[1]);
    out[2] += fraction * (value(2) - before[2]);
  }
  return out;
}
