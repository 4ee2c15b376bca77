/** One camera ray to one colour. */
import { radianceSeen } from './bounce.ts';
import { cardAt, glazeAt, paperAt } from './coat.ts';
import { cloud } from './grain.ts';
import { addPanelsSeen, type SurfacePoint } from './panel-light.ts';
import { slabNormal, toSlabFrame } from './slab.ts';
import { fromOwnFrame, solidNormal, toOwnFrame } from './solid.ts';
import { type Camera, type Stage, type Stuff, stuffStripes } from './stage.ts';
import { stuffAt } from './stuff.ts';
import { metCard, metPaper, paperNormal, type Ray, wayAlongPaper } from './trace.ts';

const normal = new Float64Array(3);
const albedo = new Float64Array(3);
const own = new Float64Array(3);
const bent = new Float64Array(3);
const lean = new Float64Array(2);
const mirrored = new Float64Array(3);
const panelsSeen = new Float64Array(3);
const mirror: Ray = new Float64Array(6);
/** Further off than a shadow ray: a mirrored ray leaves at a grazing angle where outlines are. */
const mirrorLiftMm = 0.3;

/** Normal-incidence reflectance of glass of index 1.55, as a stoneware glaze has: ((n - 1) / (n + 1)) squared. */
const coatReflectance = 0.0465;

/** Fills the point a ray met at distance `t`: position and unit normal. */
export function surfaceAt(stage: Stage, what: number, ray: Ray, t: number, point: SurfacePoint): void {
  point.x = ray[0] + ray[3] * t;
  point.y = ray[1] + ray[4] * t;
  point.z = ray[2] + ray[5] * t;
  if (what === metPaper) {
    paperNormal(stage.backdrop, point.y, point.z, normal);
  } else if (what === metCard && stage.card !== null) {
    normal.set(stage.card.face);
  } else if (what >= stage.solids.length) {
    slabNormal(stage.slabs[what - stage.solids.length], point.x, point.y, point.z, normal);
  } else {
    const solid = stage.solids[what];
    toOwnFrame(solid, point.x - solid.x, point.y - solid.y, point.z - solid.z, own);
    solidNormal(solid, own[0], own[1], own[2], normal);
    fromOwnFrame(solid, normal);
  }
  point.nx = normal[0];
  point.ny = normal[1];
  point.nz = normal[2];
}

/**
 * Radiance of a point towards the camera into `out[0..2]`: its diffuse light (`light`, irradiance over pi) times its
 * colour, and the reflection in its coat. `clear`: a mirror here shows no solid (`lightAt`).
 */
export function shadePoint(
  stage: Stage,
  what: number,
  point: SurfacePoint,
  light: Float64Array,
  clear: boolean,
  ray: Ray,
  out: Float64Array,
): void {
  if (what >= stage.solids.length) {
    const slab = stage.slabs[what - stage.solids.length];
    toSlabFrame(slab, point.x, point.y, point.z, own);
    const stuff = stage.stuffs[slab.stuff];
    const footprint = footprintAt(stage.camera, point, ray, stuff.texture === stuffStripes ? 0 : 1);
    stuffAt(stuff, stage.seed + what * 31, own[0], own[1], own[2], footprint, albedo, lean);
    bent[0] = point.nx + slab.cos * lean[0] + slab.sin * lean[1];
    bent[1] = point.ny;
    bent[2] = point.nz - slab.sin * lean[0] + slab.cos * lean[1];
    shadeStuff(stage, stuff, point, light, clear, ray, out);
    return;
  }
  if (what >= 0) {
    const solid = stage.solids[what];
    toOwnFrame(solid, point.x - solid.x, point.y - solid.y, point.z - solid.z, own);
    if (solid.glaze >= 0) {
      shadeWare(stage, what, point, light, clear, ray, out);
      return;
    }
    const stuff = stage.stuffs[solid.stuff];
    const footprint = footprintAt(stage.camera, point, ray, 0);
    stuffAt(stuff, stage.seed + what * 31, own[0], own[1], own[2], footprint, albedo, lean);
    bent[0] = point.nx + lean[0];
    bent[1] = point.ny;
    bent[2] = point.nz + lean[1];
    shadeStuff(stage, stuff, point, light, clear, ray, out);
    return;
  }
  if (what === metPaper) {
    paperAt(stage.backdrop, stage.seed, point.x, wayAlongPaper(stage.backdrop, point.y, point.z), albedo);
  } else if (stage.card !== null) {
    cardAt(stage.card, point.x, point.y, point.z, albedo);
  }
  for (let k = 0; k < 3; k++) out[k] = albedo[k] * light[k];
}

/** Width on the surface that a pixel takes in, mm: itself and as much as wanted of its circle of confusion. */
function footprintAt(
  { forward, pixelMm, lens }: Camera,
  point: SurfacePoint,
  ray: Ray,
  share: number,
): number {
  const image = Math.sqrt(forward[0] * forward[0] + forward[1] * forward[1] + forward[2] * forward[2]);
  const depth =
    ((point.x - ray[0]) * forward[0] + (point.y - ray[1]) * forward[1] + (point.z - ray[2]) * forward[2]) /
    image;
  const { focalMm, apertureMm, focusMm } = lens;
  const circle = (apertureMm * focalMm * Math.abs(depth - focusMm)) / (depth * (focusMm - focalMm));
  return ((pixelMm + share * circle) * depth) / image;
}

/** A surface that leans as `bent` says, of `albedo`. The leaning takes its share of the light off or adds to it. */
function shadeStuff(
  stage: Stage,
  stuff: Stuff,
  point: SurfacePoint,
  light: Float64Array,
  clear: boolean,
  ray: Ray,
  out: Float64Array,
): void {
  unit(bent);
  const key = stage.keyWay;
  const before = point.nx * key[0] + point.ny * key[1] + point.nz * key[2];
  const after = bent[0] * key[0] + bent[1] * key[1] + bent[2] * key[2];
  const turned = Math.max(0.4, 1 + 0.8 * (after - before));
  const scattered = 1 - stuff.metal;
  for (let k = 0; k < 3; k++) out[k] = albedo[k] * light[k] * turned * scattered;
  if (stuff.gloss <= 0) return;
  if (stuff.metal > 0) {
    mirrorCoat(stage, point, clear, ray, stuff.roughness);
    for (let k = 0; k < 3; k++) out[k] += stuff.colour[k] * mirrored[k];
    return;
  }
  const share = mirrorCoat(stage, point, clear, ray, stuff.roughness) * stuff.gloss;
  for (let k = 0; k < 3; k++) out[k] = out[k] * (1 - share) + mirrored[k] * share;
}

function shadeWare(
  stage: Stage,
  what: number,
  point: SurfacePoint,
  light: Float64Array,
  clear: boolean,
  ray: Ray,
  out: Float64Array,
): void {
  const solid = stage.solids[what];
  const glaze = stage.glazes[solid.glaze];
  const x = own[0];
  const y = own[1];
  const z = own[2];
  const coated = glazeAt(glaze, solid, stage.seed + what * 31, x, y, z, albedo) * glaze.gloss;
  for (let k = 0; k < 3; k++) out[k] = albedo[k] * light[k];
  if (coated <= 0.01) return;
  // The potter's fingers leave rings, and a molten glaze sets with a skin that is never quite even.
  const seed = stage.seed + 17;
  const swell = cloud(seed, x * 0.16, y * 0.16, z * 0.16);
  const skinX = cloud(seed + 1, x * 0.33, y * 0.33, z * 0.33);
  const skinZ = cloud(seed + 2, x * 0.33, y * 0.33, z * 0.33);
  const peel = cloud(seed + 3, x * 0.95, y * 0.95, z * 0.95);
  const rings = Math.sin((2 * Math.PI * (y + 1.6 * swell)) / glaze.ringPitch) * (0.65 + 0.6 * swell);
  const slope = glaze.rings * rings + 0.0045 * peel;
  bent[0] = point.nx + glaze.skin * skinX;
  bent[1] = point.ny + slope * (1 - point.ny * point.ny);
  bent[2] = point.nz + glaze.skin * skinZ;
  unit(bent);
  const share = mirrorCoat(stage, point, clear, ray, glaze.roughness) * coated;
  for (let k = 0; k < 3; k++) out[k] = out[k] * (1 - share) + mirrored[k] * share;
}

function unit(v: Float64Array): void {
  const scale = 1 / Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  v[0] *= scale;
  v[1] *= scale;
  v[2] *= scale;
}

/** What a coat that faces along `bent` mirrors, into `mirrored`; the share of light it mirrors is returned. */
function mirrorCoat(stage: Stage, point: SurfacePoint, clear: boolean, ray: Ray, roughness: number): number {
  const facing = Math.max(0, -(bent[0] * ray[3] + bent[1] * ray[4] + bent[2] * ray[5]));
  mirror[0] = point.x + point.nx * mirrorLiftMm;
  mirror[1] = point.y + point.ny * mirrorLiftMm;
  mirror[2] = point.z + point.nz * mirrorLiftMm;
  mirror[3] = ray[3] + 2 * facing * bent[0];
  mirror[4] = ray[4] + 2 * facing * bent[1];
  mirror[5] = ray[5] + 2 * facing * bent[2];
  const reach = radianceSeen(stage, mirror, mirrored, clear);
  panelsSeen.fill(0);
  const covered = addPanelsSeen(stage, mirror, roughness, reach, panelsSeen);
  for (let k = 0; k < 3; k++) mirrored[k] = mirrored[k] * (1 - covered) + panelsSeen[k];
  // C. Schlick, "An Inexpensive BRDF Model for Physically-based Rendering", Computer Graphics Forum 13(3), 1994.
  const grazing = 1 - facing;
  return coatReflectance + (1 - coatReflectance) * grazing * grazing * grazing * grazing * grazing;
}
