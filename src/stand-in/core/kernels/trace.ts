/** Rays against the solids, the target and the paper. */
import { marchSolid, type Solid, surfaceMm } from './solid.ts';
import type { Backdrop, Card, Stage } from './stage.ts';

/** What a ray met: 0 … the index of a solid, {@link metCard}, {@link metPaper}, {@link metNothing}. */
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
  let met = metNothing;
  let nearest = Number.POSITIVE_INFINITY;
  const paper = traceBackdrop(stage.backdrop, ray);
  if (paper > 0) {
    nearest = paper;
    met = metPaper;
  }
  if (stage.card !== null) {
    const t = traceCard(stage.card, ray);
    if (t > 0 && t < nearest) {
      nearest = t;
      met = metCard;
    }
  }
  for (let k = 0; k < stage.solids.length; k++) {
    const t = traceSolid(stage.solids[k], ray, nearest, surfaceMm);
    if (t > 0 && t < nearest) {
      nearest = t;
      met = k;
    }
  }
  out[0] = nearest;
  return met;
}

/** Rays of light need not find the surface itself; they must start further off it than this. */
const blockedMm = 0.04;

/** Whether anything but the paper stands within `reach` mm along the ray. */
export function isBlocked(stage: Stage, ray: Ray, reach: number): boolean {
  for (let k = 0; k < stage.solids.length; k++) {
    if (traceSolid(stage.solids[k], ray, reach, blockedMm) > 0) return true;
  }
  if (stage.card === null) return false;
  const t = traceCard(stage.card, ray);
  return t > 0 && t < reach;
}

/** Distance to a solid, or -1: into its own frame, against its box, then marched. */
function traceSolid(solid: Solid, ray: Ray, reach: number, near: number): number {
  const { cos, sin, box } = solid;
  const wx = ray[0] - solid.x;
  const wz = ray[2] - solid.z;
  const lx = cos * wx - sin * wz;
  const ly = ray[1] - solid.y;
  const lz = sin * wx + cos * wz;
  const dx = cos * ray[3] - sin * ray[5];
  const dy = ray[4];
  const dz = sin * ray[3] + cos * ray[5];
  const ax = (box[0] - lx) / dx;
  const bx = (box[3] - lx) / dx;
  const ay = (box[1] - ly) / dy;
  const by = (box[4] - ly) / dy;
  const az = (box[2] - lz) / dz;
  const bz = (box[5] - lz) / dz;
  const enter = Math.max(0, Math.min(ax, bx), Math.min(ay, by), Math.min(az, bz));
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
