/** Flat things that lie on the paper: a board, a cloth with folds, a print. */
import { type Grid, sampleGrid } from './grid.ts';

/** A box with rounded corners and edges, its underside on the paper; folds lift it. */
export interface Slab {
  /** Middle of its underside, mm, and its turn about the vertical. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly cos: number;
  readonly sin: number;
  readonly halfX: number;
  readonly halfZ: number;
  readonly height: number;
  /** Radius of the corners as seen from above, and of the edges. */
  readonly corner: number;
  readonly edge: number;
  /** How high folds lift it, mm, over its own x and z; null where it lies flat. `lift` is the most. */
  readonly lifted: Grid | null;
  readonly lift: number;
  /** 0 where no fold is near enough to hide the level top from a ray that comes down by 0.2 or more; null without folds. */
  readonly stirred: Grid | null;
  readonly stuff: number;
}

const stepsMax = 90;
/** Closer than this a surface is straight enough to be met by a secant. */
const steadyMm = 0.8;
/** A fold's flank is steeper than the level the distance is measured from: at most one in one. */
const foldCaution = 0.6;

const own = new Float64Array(6);

/** Distance along a world ray to a slab, or -1: nearer than `near` from above `start`, short of `reach`. */
export function traceSlab(slab: Slab, ray: Float64Array, start: number, reach: number, near: number): number {
  const { cos, sin, halfX, halfZ, height, lifted } = slab;
  const wx = ray[0] - slab.x;
  const wz = ray[2] - slab.z;
  const ox = cos * wx - sin * wz;
  const oy = ray[1] - slab.y;
  const oz = sin * wx + cos * wz;
  const dx = cos * ray[3] - sin * ray[5];
  const dy = ray[4];
  const dz = sin * ray[3] + cos * ray[5];
  if (lifted === null && dy >= 0 && oy > height + near) return -1;
  const rim = Math.max(near, 0.1);
  const ax = (-halfX - rim - ox) / dx;
  const bx = (halfX + rim - ox) / dx;
  const ay = (-rim - oy) / dy;
  const by = (height + slab.lift + rim - oy) / dy;
  const az = (-halfZ - rim - oz) / dz;
  const bz = (halfZ + rim - oz) / dz;
  const leave = Math.min(reach, Math.max(ax, bx), Math.max(ay, by), Math.max(az, bz));
  let t = Math.max(start, Math.min(ax, bx), Math.min(ay, by), Math.min(az, bz));
  if (t >= leave) return -1;
  // Most rays come down on the level top, which needs no marching.
  const down = (height - oy) / dy;
  if (near <= 0.1 && dy < -0.2 && down > 0) {
    const x = ox + dx * down;
    const z = oz + dz * down;
    if (isLevel(slab, x, z)) return down < reach ? down : -1;
  }
  let before = 0;
  let stepMm = 0;
  for (let step = 0; step < stepsMax && t < leave; step++) {
    const distance = slabDistance(slab, ox + dx * t, oy + dy * t, oz + dz * t);
    const fallen = before - distance;
    // A step that landed inside is taken back to where the straight line between both ends meets the surface.
    if (distance < -near && step > 0) return Math.max(t - (stepMm * -distance) / fallen, 1e-6);
    if (distance < near) return Math.max(t, 1e-6);
    before = distance;
    // A grazing ray nears the cloth by a quarter of its way: close by, where it falls steadily, it goes to where it lands.
    stepMm =
      distance < steadyMm && fallen > 0 ? Math.min(distance * 8, (stepMm * distance) / fallen) : distance;
    t += stepMm;
  }
  return -1;
}

/** Whether the top is plain and level at a place of the own frame, and far enough around it for a steep ray. */
function isLevel({ halfX, halfZ, corner, edge, stirred }: Slab, x: number, z: number): boolean {
  const border = corner + edge;
  if (Math.abs(x) > halfX - border || Math.abs(z) > halfZ - border) return false;
  return stirred === null || sampleGrid(stirred, x, z) === 0;
}

/** Distance at a point of the slab's own frame, mm; a lower bound. */
export function slabDistance(slab: Slab, x: number, y: number, z: number): number {
  const { corner, edge, height } = slab;
  const { lifted } = slab;
  const px = Math.abs(x) - slab.halfX + corner;
  const pz = Math.abs(z) - slab.halfZ + corner;
  const outX = Math.max(px, 0);
  const outZ = Math.max(pz, 0);
  const inside = Math.max(px, pz);
  const across = Math.sqrt(outX * outX + outZ * outZ) + Math.min(inside, 0) - corner + edge;
  const above = lifted === null ? y : y - sampleGrid(lifted, x, z);
  const up = Math.abs(above - height * 0.5) - height * 0.5 + edge;
  const outA = Math.max(across, 0);
  const outU = Math.max(up, 0);
  const deep = Math.max(across, up);
  const distance = Math.sqrt(outA * outA + outU * outU) + Math.min(deep, 0) - edge;
  return lifted === null ? distance : distance * foldCaution;
}

/** Outward unit normal at a point of the world into `out[0..2]`, world frame. */
export function slabNormal(slab: Slab, wx: number, wy: number, wz: number, out: Float64Array): void {
  toSlabFrame(slab, wx, wy, wz, own);
  const x = own[0];
  const y = own[1];
  const z = own[2];
  const { lifted } = slab;
  const inner = slab.corner + slab.edge;
  if (lifted !== null && Math.abs(x) < slab.halfX - inner && Math.abs(z) < slab.halfZ - inner) {
    const slopeX = sampleGrid(lifted, x + 0.5, z) - sampleGrid(lifted, x - 0.5, z);
    const slopeZ = sampleGrid(lifted, x, z + 0.5) - sampleGrid(lifted, x, z - 0.5);
    const length = Math.sqrt(1 + slopeX * slopeX + slopeZ * slopeZ);
    out[0] = -(slab.cos * slopeX + slab.sin * slopeZ) / length;
    out[1] = 1 / length;
    out[2] = -(-slab.sin * slopeX + slab.cos * slopeZ) / length;
    return;
  }
  if (isLevel(slab, x, z) && y > slab.height - slab.edge) {
    out[0] = 0;
    out[1] = 1;
    out[2] = 0;
    return;
  }
  const e = 0.12;
  const nx = slabDistance(slab, x + e, y, z) - slabDistance(slab, x - e, y, z);
  const ny = slabDistance(slab, x, y + e, z) - slabDistance(slab, x, y - e, z);
  const nz = slabDistance(slab, x, y, z + e) - slabDistance(slab, x, y, z - e);
  const scale = 1 / Math.max(1e-9, Math.sqrt(nx * nx + ny * ny + nz * nz));
  out[0] = (slab.cos * nx + slab.sin * nz) * scale;
  out[1] = ny * scale;
  out[2] = (-slab.sin * nx + slab.cos * nz) * scale;
}

/** A point of the world in the slab's own frame, into `out[0..2]`. */
export function toSlabFrame(slab: Slab, wx: number, wy: number, wz: number, out: Float64Array): void {
  const x = wx - slab.x;
  const z = wz - slab.z;
  out[0] = slab.cos * x - slab.sin * z;
  out[1] = wy - slab.y;
  out[2] = slab.sin * x + slab.cos * z;
}
