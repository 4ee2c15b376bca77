/** Softboxes and white cards: how they shine at a point, and how they look in a reflection. */
import type { Panel, Stage } from './stage.ts';
import { isBlockedBy, listBlockers, type Ray } from './trace.ts';

/** A point on a surface: position and unit normal, mm, world frame. */
export interface SurfacePoint {
  x: number;
  y: number;
  z: number;
  nx: number;
  ny: number;
  nz: number;
}

/** Points start this far off their surface, so that a shadow ray does not meet the surface it starts from. */
export const liftMm = 0.12;

const shadow: Ray = new Float64Array(6);

/**
 * Irradiance at a point from every panel, with shadows, added to `out[0..2]`, over pi: a perfect diffuser shows this
 * as its radiance. Each panel is sampled on a jittered square; `jitterU`, `jitterV` (0 … 1) place the samples.
 */
export function addPanelLight(
  stage: Stage,
  point: SurfacePoint,
  jitterU: number,
  jitterV: number,
  out: Float64Array,
): void {
  for (let k = 0; k < stage.panels.length; k++)
    addOnePanel(stage, stage.panels[k], point, jitterU, jitterV, out);
}

function addOnePanel(
  stage: Stage,
  panel: Panel,
  point: SurfacePoint,
  jitterU: number,
  jitterV: number,
  out: Float64Array,
): void {
  const { centre, halfU, halfV, normal, radiance } = panel;
  const { nx, ny, nz } = point;
  const ox = point.x + nx * liftMm;
  const oy = point.y + ny * liftMm;
  const oz = point.z + nz * liftMm;
  shadow[0] = ox;
  shadow[1] = oy;
  shadow[2] = oz;
  const side = Math.round(Math.sqrt(panel.samples));
  const blockers = blockersBefore(stage, panel, ox, oy, oz);
  let sum = 0;
  for (let i = 0; i < side; i++) {
    for (let j = 0; j < side; j++) {
      const u = ((i + jitterU) / side) * 2 - 1;
      const v = ((j + jitterV) / side) * 2 - 1;
      const lx = centre[0] + halfU[0] * u + halfV[0] * v - ox;
      const ly = centre[1] + halfU[1] * u + halfV[1] * v - oy;
      const lz = centre[2] + halfU[2] * u + halfV[2] * v - oz;
      const cosHere = nx * lx + ny * ly + nz * lz;
      if (cosHere <= 0) continue;
      const cosThere = -(normal[0] * lx + normal[1] * ly + normal[2] * lz);
      if (cosThere <= 0) continue;
      const square = lx * lx + ly * ly + lz * lz;
      const away = Math.sqrt(square);
      shadow[3] = lx / away;
      shadow[4] = ly / away;
      shadow[5] = lz / away;
      if (isBlockedBy(stage, shadow, away, listed, blockers)) continue;
      sum += ((cosHere * cosThere) / (square * square)) * (1 - panel.hotspot * 0.5 * (u * u + v * v));
    }
  }
  const scale = (sum * panelArea(panel)) / (side * side * Math.PI);
  out[0] += radiance[0] * scale;
  out[1] += radiance[1] * scale;
  out[2] += radiance[2] * scale;
}

const cone = new Float64Array(4);
const listed = new Int16Array(128);

/** Fills `listed` with what may cast a shadow of the panel on a point, and says how many those are. */
function blockersBefore(
  stage: Stage,
  { centre, halfU, halfV }: Panel,
  x: number,
  y: number,
  z: number,
): number {
  const dx = centre[0] - x;
  const dy = centre[1] - y;
  const dz = centre[2] - z;
  const away = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const square =
    halfU[0] * halfU[0] +
    halfU[1] * halfU[1] +
    halfU[2] * halfU[2] +
    halfV[0] * halfV[0] +
    halfV[1] * halfV[1] +
    halfV[2] * halfV[2];
  cone[0] = dx / away;
  cone[1] = dy / away;
  cone[2] = dz / away;
  cone[3] = Math.min(0.999, Math.sqrt(square) / away);
  return listBlockers(stage, x, y, z, cone, listed);
}

function panelArea({ halfU, halfV }: Panel): number {
  return 4 * Math.hypot(halfU[0], halfU[1], halfU[2]) * Math.hypot(halfV[0], halfV[1], halfV[2]);
}

/**
 * Radiance a ray sees of the panels, added to `out[0..2]`; how much of it they cover, 0 … 1, is returned. `blur` is
 * the half width of the softened edge, radians, as a rough glaze shows it; panels beyond `reach` mm are hidden.
 */
export function addPanelsSeen(
  stage: Stage,
  ray: Ray,
  blur: number,
  reach: number,
  out: Float64Array,
): number {
  const dx = ray[3];
  const dy = ray[4];
  const dz = ray[5];
  let covered = 0;
  for (let k = 0; k < stage.panels.length; k++) {
    const panel = stage.panels[k];
    const { centre, halfU, halfV, normal } = panel;
    const cosThere = -(normal[0] * dx + normal[1] * dy + normal[2] * dz);
    if (cosThere <= 0.01) continue;
    const toX = centre[0] - ray[0];
    const toY = centre[1] - ray[1];
    const toZ = centre[2] - ray[2];
    const t = -(normal[0] * toX + normal[1] * toY + normal[2] * toZ) / cosThere;
    if (t <= 0 || t > reach) continue;
    const px = dx * t - toX;
    const py = dy * t - toY;
    const pz = dz * t - toZ;
    const squareU = halfU[0] * halfU[0] + halfU[1] * halfU[1] + halfU[2] * halfU[2];
    const squareV = halfV[0] * halfV[0] + halfV[1] * halfV[1] + halfV[2] * halfV[2];
    const u = (px * halfU[0] + py * halfU[1] + pz * halfU[2]) / squareU;
    const v = (px * halfV[0] + py * halfV[1] + pz * halfV[2]) / squareV;
    const soft = (blur * t) / cosThere;
    const inside = edge(u, soft / Math.sqrt(squareU)) * edge(v, soft / Math.sqrt(squareV));
    if (inside <= 0) continue;
    const shine = inside * (1 - panel.hotspot * 0.5 * Math.min(2, u * u + v * v));
    out[0] += panel.radiance[0] * shine;
    out[1] += panel.radiance[1] * shine;
    out[2] += panel.radiance[2] * shine;
    covered += inside;
  }
  return Math.min(1, covered);
}

/** Share of a stretch of half width `soft` about `x` that lies within ±1, eased where the stretch is short. */
function edge(x: number, soft: number): number {
  const overlap = Math.min(1, x + soft) - Math.max(-1, x - soft);
  if (overlap <= 0) return 0;
  const t = overlap / (2 * soft);
  return soft < 1 ? t * t * (3 - 2 * t) : t;
}
