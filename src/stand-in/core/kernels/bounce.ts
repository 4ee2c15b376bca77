/** Light that reaches a point by way of the paper, the ware and the room: one bounce. */
import { sampleGrid } from './grid.ts';
import { liftMm, type SurfacePoint } from './panel-light.ts';
import type { Stage } from './stage.ts';
import { metCard, metNothing, metPaper, type Ray, traceGround, traceRay, wayAlongPaper } from './trace.ts';

const bounced: Ray = new Float64Array(6);
const met = new Float64Array(1);
const seen = new Float64Array(3);

/**
 * Irradiance over pi from everything but the panels, added to `out[0..2]`: `side * side` rays, cosine-weighted, on a
 * jittered square mapped to the hemisphere.
 */
export function addBounce(
  stage: Stage,
  point: SurfacePoint,
  side: number,
  jitterU: number,
  jitterV: number,
  out: Float64Array,
): void {
  const { nx, ny, nz } = point;
  // T. Duff et al., "Building an Orthonormal Basis, Revisited", JCGT 6(1), 2017.
  const sign = nz >= 0 ? 1 : -1;
  const a = -1 / (sign + nz);
  const b = nx * ny * a;
  const tx = 1 + sign * nx * nx * a;
  const ty = sign * b;
  const tz = -sign * nx;
  const bx = b;
  const by = sign + ny * ny * a;
  const bz = -ny;
  bounced[0] = point.x + nx * liftMm;
  bounced[1] = point.y + ny * liftMm;
  bounced[2] = point.z + nz * liftMm;
  let red = 0;
  let green = 0;
  let blue = 0;
  for (let i = 0; i < side; i++) {
    for (let j = 0; j < side; j++) {
      const angle = 2 * Math.PI * ((i + jitterU) / side);
      const square = (j + jitterV) / side;
      const flat = Math.sqrt(square);
      const up = Math.sqrt(1 - square);
      const p = flat * Math.cos(angle);
      const q = flat * Math.sin(angle);
      bounced[3] = p * tx + q * bx + up * nx;
      bounced[4] = p * ty + q * by + up * ny;
      bounced[5] = p * tz + q * bz + up * nz;
      radianceSeen(stage, bounced, seen);
      red += seen[0];
      green += seen[1];
      blue += seen[2];
    }
  }
  const scale = 1 / (side * side);
  out[0] += red * scale;
  out[1] += green * scale;
  out[2] += blue * scale;
}

/**
 * Roughly what a ray sees, panels left out, into `out[0..2]`: paper in its own light, ware in half of the full light,
 * else the room. Returns how far away it is, mm. `clear`: no solid lies that way, as the caller knows.
 */
export function radianceSeen(stage: Stage, ray: Ray, out: Float64Array, clear = false): number {
  const what = clear ? traceGround(stage, ray, met) : traceRay(stage, ray, met);
  if (what === metNothing) {
    // Ceiling lighter than walls, walls lighter than the floor in front of the paper.
    const share = 0.6 + 0.4 * ray[4];
    for (let k = 0; k < 3; k++) out[k] = stage.roomLight[k] * share;
    return Number.POSITIVE_INFINITY;
  }
  const away = met[0];
  if (what === metPaper || what === metCard) {
    paperRadiance(
      stage,
      stage.backdrop.albedo,
      ray[0] + ray[3] * away,
      ray[1] + ray[4] * away,
      ray[2] + ray[5] * away,
      out,
    );
    return away;
  }
  if (what >= stage.solids.length) {
    const slab = stage.slabs[what - stage.solids.length];
    const albedo = stage.stuffs[slab.stuff].mean;
    paperRadiance(stage, albedo, ray[0] + ray[3] * away, 0, ray[2] + ray[5] * away, out);
    return away;
  }
  const solid = stage.solids[what];
  const mean = solid.glaze >= 0 ? stage.glazes[solid.glaze].mean : stage.stuffs[solid.stuff].mean;
  for (let k = 0; k < 3; k++) out[k] = mean[k] * wareLight;
  return away;
}

/** Light on the ware as a reflection or a bounce sees it: it is in its own shade as often as not. */
const wareLight = 0.45;

function fadeOut(place: number, from: number, over: number): number {
  const t = Math.min(1, Math.max(0, (place - from) / over));
  return 1 - t * t * (3 - 2 * t);
}

/** Paper as it looks from anywhere: its light, kept on a coarse grid, times its colour. */
function paperRadiance(
  stage: Stage,
  albedo: Float64Array,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): void {
  const { backdrop, paperLight } = stage;
  const way = wayAlongPaper(backdrop, y, z);
  const { frontMm, sideMm, fadeMm } = backdrop;
  const kept = fadeOut(-way, frontMm, fadeMm) * fadeOut(Math.abs(x), sideMm, fadeMm);
  for (let k = 0; k < 3; k++) {
    const light = paperLight === null ? 0.5 : sampleGrid(paperLight[k], x, way);
    out[k] = albedo[k] * light * kept;
  }
}
