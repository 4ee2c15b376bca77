/** Rays against the solids, the target and the paper. */
import { traceSlab } from './slab.ts';
import { marchSolid, type Solid, surfaceMm } from './solid.ts';
import type { Backdrop, Card, Stage } from './stage.ts';

/** What a ray met: 0 … the number of a thing, {@link metCard}, {@link metPaper}, {@link metNothing}. */
export const metNothing = -1;
export const metPaper = -2;
export const metCard = -3;

/**
 * A ray: origin (0, 1, 2) and unit direction (3, 4, 5), mm. Rays travel in arrays, since a call that passes six doubles
 * boxes each of them.
 */
export type Ray = Float64Array;

const local: Ray = new Float64Array(6);

/** Nearest thing along a ray; its distance goes to `out[0]`. */
export function traceRay(stage: Stage, ray: Ray, out: Float64Array): number {
  let met = traceFlat(stage, ray, out);
  let nearest = out[0];
  const { solids, clusters, slabs } = stage;
  for (let c = 0; c < clusters.length; c++) {
    const cluster = clusters[c];
    if (cluster.to - cluster.from > 1 && !meetsBox(cluster.box, ray, nearest)) continue;
    for (let k = cluster.from; k < cluster.to; k++) {
      const t = traceSolid(solids[k], ray, 0, nearest, surfaceMm);
      if (t > 0 && t < nearest) {
        nearest = t;
        met = k;
      }
    }
  }
  for (let k = 0; k < slabs.length; k++) {
    const t = traceSlab(slabs[k], ray, 0, nearest, surfaceMm);
    if (t > 0 && t < nearest) {
      nearest = t;
      met = solids.length + k;
    }
  }
  out[0] = nearest;
  return met;
}

/** As {@link traceRay} for a ray that is known to meet no solid. */
export function traceGround(stage: Stage, ray: Ray, out: Float64Array): number {
  const { solids, slabs } = stage;
  let met = traceFlat(stage, ray, out);
  for (let k = 0; k < slabs.length; k++) {
    const t = traceSlab(slabs[k], ray, 0, out[0], surfaceMm);
    if (t > 0 && t < out[0]) {
      out[0] = t;
      met = solids.length + k;
    }
  }
  return met;
}

/** As {@link traceRay} for a ray of a tile whose free ways are known (`approachThings`). */
export function traceFrom(
  stage: Stage,
  ray: Ray,
  starts: Float32Array,
  at: number,
  out: Float64Array,
): number {
  let met = traceFlat(stage, ray, out);
  let nearest = out[0];
  const { solids, slabs } = stage;
  const things = solids.length + slabs.length;
  for (let k = 0; k < things; k++) {
    const start = starts[at + k];
    if (start >= nearest) continue;
    const t =
      k < solids.length
        ? traceSolid(solids[k], ray, start, nearest, surfaceMm)
        : traceSlab(slabs[k - solids.length], ray, start, nearest, surfaceMm);
    if (t > 0 && t < nearest) {
      nearest = t;
      met = k;
    }
  }
  out[0] = nearest;
  return met;
}

/**
 * How far every ray within `share` radians of this one may go before it can meet each thing, mm, into `starts`, a place
 * per thing; infinite where none of them meets it; from `at` on. A tile's rays share the way up to there.
 */
export function approachThings(
  stage: Stage,
  ray: Ray,
  share: number,
  starts: Float32Array,
  at: number,
): void {
  const { solids, slabs } = stage;
  for (let k = 0; k < solids.length; k++) {
    const solid = solids[k];
    const t = traceSolid(
      solid,
      ray,
      0,
      Number.POSITIVE_INFINITY,
      share * farthest(ray, solid, solid.box[3] - solid.box[0]) + surfaceMm,
    );
    starts[at + k] = t > 0 ? t - roundingMm : Number.POSITIVE_INFINITY;
  }
  for (let k = 0; k < slabs.length; k++) {
    const slab = slabs[k];
    const t = traceSlab(
      slab,
      ray,
      0,
      Number.POSITIVE_INFINITY,
      share * farthest(ray, slab, 2 * (slab.halfX + slab.halfZ)) + surfaceMm,
    );
    starts[at + solids.length + k] = t > 0 ? t - roundingMm : Number.POSITIVE_INFINITY;
  }
}

/** Starts are kept as single floats, which at two metres are good to a tenth of this. */
const roundingMm = 0.001;

function farthest(
  ray: Ray,
  thing: { readonly x: number; readonly y: number; readonly z: number },
  size: number,
): number {
  return Math.hypot(ray[0] - thing.x, ray[1] - thing.y, ray[2] - thing.z) + size;
}

/** Paper and target, which need no marching. */
function traceFlat(stage: Stage, ray: Ray, out: Float64Array): number {
  let met = metNothing;
  out[0] = Number.POSITIVE_INFINITY;
  const paper = traceBackdrop(stage.backdrop, ray);
  if (paper > 0) {
    out[0] = paper;
    met = metPaper;
  }
  if (stage.card !== null) {
    const t = traceCard(stage.card, ray);
    if (t > 0 && t < out[0]) {
      out[0] = t;
      met = metCard;
    }
  }
  return met;
}

/** Rays of light need not find the surface itself; they must start further off it than this. */
const blockedMm = 0.04;

/**
 * Things that may stand between a point and a panel, into `list`: those whose sphere overlaps the cone from the point to
 * the panel's sphere (`cone`: unit direction, sine of its half angle). Returns how many.
 */
export function listBlockers(
  stage: Stage,
  x: number,
  y: number,
  z: number,
  cone: Float64Array,
  list: Int16Array,
): number {
  const { spheres } = stage;
  const coneSin = cone[3];
  const coneCos = Math.sqrt(1 - coneSin * coneSin);
  let count = 0;
  for (let k = 0; k * 4 < spheres.length; k++) {
    const dx = spheres[k * 4] - x;
    const dy = spheres[k * 4 + 1] - y;
    const dz = spheres[k * 4 + 2] - z;
    const radius = spheres[k * 4 + 3];
    const square = dx * dx + dy * dy + dz * dz;
    if (square > radius * radius) {
      const along = dx * cone[0] + dy * cone[1] + dz * cone[2];
      const away = Math.sqrt(square);
      const sin = radius / away;
      const cos = Math.sqrt(1 - sin * sin);
      // Angle between the two directions against the sum of both half angles.
      if (along < away * (coneCos * cos - coneSin * sin)) continue;
    }
    list[count++] = k;
  }
  return count;
}

/** Whether one of the first `count` listed things, or the target, stands within `reach` mm along the ray. */
export function isBlockedBy(stage: Stage, ray: Ray, reach: number, list: Int16Array, count: number): boolean {
  const { solids, slabs } = stage;
  for (let n = 0; n < count; n++) {
    const k = list[n];
    const t =
      k < solids.length
        ? traceSolid(solids[k], ray, 0, reach, blockedMm)
        : traceSlab(slabs[k - solids.length], ray, 0, reach, blockedMm);
    if (t > 0) return true;
  }
  if (stage.card === null) return false;
  const t = traceCard(stage.card, ray);
  return t > 0 && t < reach;
}

function meetsBox(box: Float64Array, ray: Ray, reach: number): boolean {
  const ax = (box[0] - ray[0]) / ray[3];
  const bx = (box[3] - ray[0]) / ray[3];
  const ay = (box[1] - ray[1]) / ray[4];
  const by = (box[4] - ray[1]) / ray[4];
  const az = (box[2] - ray[2]) / ray[5];
  const bz = (box[5] - ray[2]) / ray[5];
  const enter = Math.max(0, Math.min(ax, bx), Math.min(ay, by), Math.min(az, bz));
  return enter < Math.min(reach, Math.max(ax, bx), Math.max(ay, by), Math.max(az, bz));
}

/** Distance to a solid, or -1: into its own frame, against its box, then marched from `start` on. */
function traceSolid(solid: Solid, ray: Ray, start: number, reach: number, near: number): number {
  const { cos, sin, box } = solid;
  const wx = ray[0] - solid.x;
  const wz = ray[2] - solid.z;
  const lx = cos * wx - sin * wz;
  const dx = cos * ray[3] - sin * ray[5];
  let ly = ray[1] - solid.y;
  let lz = sin * wx + cos * wz;
  let dy = ray[4];
  let dz = sin * ray[3] + cos * ray[5];
  if (solid.lying === 1) {
    const up = ly;
    ly = -lz;
    lz = up;
    const rise = dy;
    dy = -dz;
    dz = rise;
  }
  // A wide ray meets the box before its middle does.
  const rim = near > 0.1 ? near : 0;
  const ax = (box[0] - rim - lx) / dx;
  const bx = (box[3] + rim - lx) / dx;
  const ay = (box[1] - rim - ly) / dy;
  const by = (box[4] + rim - ly) / dy;
  const az = (box[2] - rim - lz) / dz;
  const bz = (box[5] + rim - lz) / dz;
  const enter = Math.max(start, Math.min(ax, bx), Math.min(ay, by), Math.min(az, bz));
  const leave = Math.min(reach, Math.max(ax, bx), Math.max(ay, by), Math.max(az, bz));
  if (!(enter < leave)) return -1;
  local[0] = lx;
  local[1] = ly;
  local[2] = lz;
  local[3] = dx;
  local[4] = dy;
  local[5] = dz;
  return marchSolid(solid, local, enter, leave, near);
}

/** Distance to the paper, or -1. It has the same outline at every x. */
function traceBackdrop(backdrop: Backdrop, ray: Ray): number {
  const { bendZ, bendRadius } = backdrop;
  const oy = ray[1];
  const oz = ray[2];
  const dy = ray[4];
  const dz = ray[5];
  if (dy < 0) {
    const t = -oy / dy;
    if (oz + dz * t >= bendZ) return t;
  }
  if (dz < 0) {
    const t = (bendZ - bendRadius - oz) / dz;
    if (oy + dy * t >= bendRadius) return t;
  }
  const cy = oy - bendRadius;
  const cz = oz - bendZ;
  const a = dy * dy + dz * dz;
  const b = cy * dy + cz * dz;
  const root = b * b - a * (cy * cy + cz * cz - bendRadius * bendRadius);
  if (root < 0) return -1;
  const t = (-b + Math.sqrt(root)) / a;
  return t > 0 && oz + dz * t <= bendZ && oy + dy * t <= bendRadius ? t : -1;
}

/** Way along the paper from its front, mm, of a point on it; 0 at z = 0. */
export function wayAlongPaper(backdrop: Backdrop, y: number, z: number): number {
  const { bendZ, bendRadius } = backdrop;
  if (z >= bendZ) return -z;
  if (y >= bendRadius) return -bendZ + (bendRadius * Math.PI) / 2 + (y - bendRadius);
  return -bendZ + bendRadius * Math.atan2(bendZ - z, bendRadius - y);
}

/** Unit normal of the paper at a point on it, y and z part into `out[1]`, `out[2]`. */
export function paperNormal(backdrop: Backdrop, y: number, z: number, out: Float64Array): void {
  const { bendZ, bendRadius } = backdrop;
  out[0] = 0;
  if (z >= bendZ) {
    out[1] = 1;
    out[2] = 0;
  } else if (y >= bendRadius) {
    out[1] = 0;
    out[2] = 1;
  } else {
    out[1] = (bendRadius - y) / bendRadius;
    out[2] = (bendZ - z) / bendRadius;
    const scale = 1 / Math.sqrt(out[1] * out[1] + out[2] * out[2]);
    out[1] *= scale;
    out[2] *= scale;
  }
}

/** Distance to the target's box, or -1. */
function traceCard(card: Card, ray: Ray): number {
  const { centre, across, up, face } = card;
  const wx = ray[0] - centre[0];
  const wy = ray[1] - centre[1];
  const wz = ray[2] - centre[2];
  let enter = 0;
  let leave = Number.POSITIVE_INFINITY;
  for (let axis = 0; axis < 3; axis++) {
    const e = axis === 0 ? across : axis === 1 ? up : face;
    const half = axis === 0 ? card.halfWidth : axis === 1 ? card.halfHeight : card.halfThickness;
    const o = wx * e[0] + wy * e[1] + wz * e[2];
    const d = ray[3] * e[0] + ray[4] * e[1] + ray[5] * e[2];
    const a = (-half - o) / d;
    const b = (half - o) / d;
    enter = Math.max(enter, Math.min(a, b));
    leave = Math.min(leave, Math.max(a, b));
  }
  return enter < leave && enter > 0 ? enter : -1;
}
