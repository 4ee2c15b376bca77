/** One camera ray to one colour. */
import { radianceSeen } from './bounce.ts';
import { cardAt, glazeAt, paperAt } from './coat.ts';
import { addPanelsSeen, type SurfacePoint } from './panel-light.ts';
import { solidNormal } from './solid.ts';
import type { Stage } from './stage.ts';
import { metCard, metPaper, paperNormal, type Ray, wayAlongPaper } from './trace.ts';

const normal = new Float64Array(3);
const albedo = new Float64Array(3);
const mirrored = new Float64Array(3);
const panelsSeen = new Float64Array(3);
const mirror: Ray = new Float64Array(6);
/** Further off than a shadow ray: a mirrored ray leaves at a grazing angle where outlines are. */
const mirrorLiftMm = 0.3;

/** Normal-incidence reflectance of glass of index 1.5, as a glaze is. */
const coatReflectance = 0.04;

/** Fills the point a ray met at distance `t`: position and unit normal. */
export function surfaceAt(stage: Stage, what: number, ray: Ray, t: number, point: SurfacePoint): void {
  point.x = ray[0] + ray[3] * t;
  point.y = ray[1] + ray[4] * t;
  point.z = ray[2] + ray[5] * t;
  if (what === metPaper) {
    paperNormal(stage.backdrop, point.y, point.z, normal);
  } else if (what === metCard && stage.card !== null) {
    normal.set(stage.card.face);
  } else {
    const solid = stage.solids[what];
    const wx = point.x - solid.x;
    const wz = point.z - solid.z;
    solidNormal(
      solid,
      solid.cos * wx - solid.sin * wz,
      point.y - solid.y,
      solid.sin * wx + solid.cos * wz,
      normal,
    );
    const lx = normal[0];
    normal[0] = solid.cos * lx + solid.sin * normal[2];
    normal[2] = -solid.sin * lx + solid.cos * normal[2];
  }
  point.nx = normal[0];
  point.ny = normal[1];
  point.nz = normal[2];
}

/**
 * Radiance of a point towards the camera into `out[0..2]`: its diffuse light (`light`, irradiance over pi) times its
 * colour, and on ware the reflection in its coat.
 */
export function shadePoint(
  stage: Stage,
  what: number,
  point: SurfacePoint,
  light: Float64Array,
  ray: Ray,
  out: Float64Array,
): void {
  if (what === metPaper) {
    paperAt(stage.backdrop, stage.seed, point.x, wayAlongPaper(stage.backdrop, point.y, point.z), albedo);
  } else if (what === metCard && stage.card !== null) {
    cardAt(stage.card, point.x, point.y, point.z, albedo);
  } else {
    shadeWare(stage, what, point, light, ray, out);
    return;
  }
  for (let k = 0; k < 3; k++) out[k] = albedo[k] * light[k];
}

function shadeWare(
  stage: Stage,
  what: number,
  point: SurfacePoint,
  light: Float64Array,
  ray: Ray,
  out: Float64Array,
): void {
  const solid = stage.solids[what];
  const glaze = stage.glazes[solid.glaze];
  const wx = point.x - solid.x;
  const wz = point.z - solid.z;
  const ly = point.y - solid.y;
  const lx = solid.cos * wx - solid.sin * wz;
  const lz = solid.sin * wx + solid.cos * wz;
  const coated = glazeAt(glaze, solid, stage.seed + what * 31, lx, ly, lz, albedo) * glaze.gloss;
  for (let k = 0; k < 3; k++) out[k] = albedo[k] * light[k];
  if (coated <= 0.01) return;
  // Throwing rings: the potter's fingers, a slope that comes and goes with height.
  const slope = glaze.rings * Math.sin((2 * Math.PI * ly) / glaze.ringPitch);
  const ny = point.ny + slope * (1 - point.ny * point.ny);
  const scale = 1 / Math.sqrt(point.nx * point.nx + ny * ny + point.nz * point.nz);
  const nx = point.nx * scale;
  const nyUnit = ny * scale;
  const nz = point.nz * scale;
  const dx = ray[3];
  const dy = ray[4];
  const dz = ray[5];
  const facing = Math.max(0, -(nx * dx + nyUnit * dy + nz * dz));
  // C. Schlick, "An Inexpensive BRDF Model for Physically-based Rendering", Computer Graphics Forum 13(3), 1994.
  const grazing = 1 - facing;
  const reflectance =
    coatReflectance + (1 - coatReflectance) * grazing * grazing * grazing * grazing * grazing;
  mirror[0] = point.x + point.nx * mirrorLiftMm;
  mirror[1] = point.y + point.ny * mirrorLiftMm;
  mirror[2] = point.z + point.nz * mirrorLiftMm;
  mirror[3] = dx + 2 * facing * nx;
  mirror[4] = dy + 2 * facing * nyUnit;
  mirror[5] = dz + 2 * facing * nz;
  seeMirrored(stage, glaze.roughness);
  const share = reflectance * coated;
  for (let k = 0; k < 3; k++) out[k] = out[k] * (1 - share) + mirrored[k] * share;
}

/** What the coat mirrors, into `mirrored`: panels over whatever else lies that way, unless something stands before them. */
function seeMirrored(stage: Stage, roughness: number): void {
  const reach = radianceSeen(stage, mirror, mirrored);
  panelsSeen.fill(0);
  const covered = addPanelsSeen(stage, mirror, roughness, reach, panelsSeen);
  for (let k = 0; k < 3; k++) mirrored[k] = mirrored[k] * (1 - covered) + panelsSeen[k];
}
