/** Things that are drawn along curves in one plane and laid down: spoon, twig, wire, crumb. */
import type { Grid } from '../kernels/grid.ts';
import type { Limb, Solid } from '../kernels/solid.ts';
import { type LimbShape, makeLimb } from '../ware/shape.ts';

export interface LaidPlace {
  readonly x: number;
  readonly z: number;
  /** Turn about the vertical, degrees. */
  readonly turn: number;
  /** Height of the drawing's plane, mm. */
  readonly y: number;
}

/** How far curves of one drawing melt into each other, mm. */
const fillet = 1;

/** The fields are costly: one drawing is made once and laid as often as wanted. */
export function layDown(limbs: readonly LimbShape[]): (place: LaidPlace, stuff: number) => Solid {
  const made = limbs.map((limb) => makeLimb(limb, fillet));
  const box = boxOf(made);
  return ({ x, y, z, turn }, stuff) => ({
    x,
    y,
    z,
    cos: Math.cos((turn * Math.PI) / 180),
    sin: Math.sin((turn * Math.PI) / 180),
    lying: 1,
    box,
    distance: everywhere(farMm),
    side: everywhere(farMm),
    along: everywhere(0),
    limbs: made,
    fillet,
    lipPull: 0,
    lipFrom: 0,
    lipTo: 1,
    glaze: -1,
    stuff,
  });
}

/** There is no wall that the limbs could grow from. */
const farMm = 1000;

function everywhere(value: number): Grid {
  return { values: new Float32Array(4).fill(value), columns: 2, rows: 2, left: 0, bottom: 0, perMm: 1e-3 };
}

function boxOf(limbs: readonly Limb[]): Float64Array {
  const least = (index: number): number => Math.min(...limbs.map(({ bounds }) => bounds[index] ?? 0));
  const most = (index: number): number => Math.max(...limbs.map(({ bounds }) => bounds[index] ?? 0));
  return Float64Array.of(least(0), least(2), -most(4), most(1), most(3), most(4));
}
