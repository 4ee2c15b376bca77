/** A piece of pottery as a signed distance field: a revolved profile with limbs (handle, spout) grown onto it. */
import { type Grid, sampleGrid } from './grid.ts';

export interface Solid {
  /** Where its foot stands, mm, and how it is turned about the vertical. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly cos: number;
  readonly sin: number;
  /** 1: laid on its side, so that the plane of its limbs is level. */
  readonly lying: number;
  /** Box that holds it in its own frame: minX, minY, minZ, maxX, maxY, maxZ. */
  readonly box: Float64Array;
  /** Profile in (radius, height). */
  readonly distance: Grid;
  readonly side: Grid;
  readonly along: Grid;
  readonly limbs: readonly Limb[];
  /** Radius of the fillet where a limb meets the body, mm. */
  readonly fillet: number;
  /** A pouring lip pulled out of the rim towards +x: how far, mm, and between which heights it grows. */
  readonly lipPull: number;
  readonly lipFrom: number;
  readonly lipTo: number;
  /** Index of its glaze, or -1. */
  readonly glaze: number;
  /** Index of what else it is made of, or -1. */
  readonly stuff: number;
}

/** A tube along a curve in the plane z = 0. */
export interface Limb {
  /** Distance to the curve in the plane. */
  readonly spine: Grid;
  readonly half: Grid;
  /** Thickness in the plane over width across it; 1 is round, below 1 a strap, above 1 a leaf in the plane. */
  readonly flatness: number;
  /** Half thickness of the bore, mm; 0 is solid. The bore begins at `boreAlong` of the length. */
  readonly along: Grid;
  readonly bore: number;
  readonly boreAlong: number;
  /** Cut off where `cutX x + cutY y > cutAt`. */
  readonly cutX: number;
  readonly cutY: number;
  readonly cutAt: number;
  /** Box that holds it: minX, maxX, minY, maxY, half width in z. */
  readonly bounds: Float64Array;
}

/** A direction or an offset from the solid's foot, in its own frame, into `out[0..2]`. */
export function toOwnFrame(solid: Solid, x: number, y: number, z: number, out: Float64Array): void {
  const turned = solid.sin * x + solid.cos * z;
  out[0] = solid.cos * x - solid.sin * z;
  out[1] = solid.lying === 1 ? -turned : y;
  out[2] = solid.lying === 1 ? y : turned;
}

/** The way back, of a direction in `out[0..2]`. */
export function fromOwnFrame(solid: Solid, out: Float64Array): void {
  const x = out[0];
  const y = solid.lying === 1 ? out[2] : out[1];
  const z = solid.lying === 1 ? -out[1] : out[2];
  out[0] = solid.cos * x + solid.sin * z;
  out[1] = y;
  out[2] = -solid.sin * x + solid.cos * z;
}

/** Signed distance at a point of the solid's own frame, mm; a lower bound away from the surface. */
export function solidDistance(solid: Solid, x: number, y: number, z: number): number {
  const profileRadius = profileRadiusAt(solid, x, y, z);
  const body = sampleGrid(solid.distance, profileRadius, y);
  return solid.limbs.length === 0 ? body : joinLimbs(solid, body, profileRadius, x, y, z);
}

/** Where in the profile a point is looked up: its distance from the axis, less what the lip is pulled out there. */
export function profileRadiusAt(solid: Solid, x: number, y: number, z: number): number {
  const radius = Math.sqrt(x * x + z * z);
  return solid.lipPull > 0 && y > solid.lipFrom ? radiusAtLip(solid, radius, x, y) : radius;
}

/** A point on the pulled lip is looked up where the rim would be without it. */
function radiusAtLip(solid: Solid, radius: number, x: number, y: number): number {
  if (x <= 0) return radius;
  const grown = Math.min(1, (y - solid.lipFrom) / (solid.lipTo - solid.lipFrom));
  const towards = (x * x) / (radius * radius);
  return Math.abs(radius - solid.lipPull * grown * grown * towards * towards);
}

function joinLimbs(
  solid: Solid,
  body: number,
  profileRadius: number,
  x: number,
  y: number,
  z: number,
): number {
  let distance = body;
  for (let k = 0; k < solid.limbs.length; k++) {
    const limb = solid.limbs[k];
    const { bounds } = limb;
    const apart = Math.max(
      bounds[0] - x,
      x - bounds[1],
      bounds[2] - y,
      y - bounds[3],
      Math.abs(z) - bounds[4],
    );
    if (apart >= distance + solid.fillet) continue;
    // Limbs grow on the outside only: the hollow of a mug has no handle in it.
    if (sampleGrid(solid.side, profileRadius, y) < 0) return distance;
    distance = joinLimb(limb, distance, solid.fillet, x, y, z);
  }
  return distance;
}

/** Closer than this is the surface, mm: a tenth of a pixel's width on the ware. */
export const surfaceMm = 0.008;
const stepsMax = 160;
/** Steps reach this far beyond the free sphere at first; steps of 1 and below are safe. */
const boldness = 1.5;
/** The fields are lower bounds only nearly (flattened limbs, the pulled lip), so careful steps stay short of them. */
const caution = 0.92;
/** Where the lip is pulled out the field changes faster than distance does: at most by this, inverted. */
const lipSteepness = 0.6;

/**
 * First place between `enter` and `leave` where a ray of the solid's own frame (origin, unit direction) comes closer
 * to it than `near`, or -1. Sphere tracing (J. C. Hart, The Visual Computer 12, 1996) with over-relaxed steps that
 * are taken back when two free spheres do not touch (B. Keinert et al., "Enhanced Sphere Tracing", STAG 2014).
 *
 * Nearly all time of a rendering is spent here, so the profile's lookup is written out: a call would box its doubles
 * (measured: half the time).
 */
export function marchSolid(
  solid: Solid,
  ray: Float64Array,
  enter: number,
  leave: number,
  near: number,
): number {
  const { values, columns, rows, bottom, perMm } = solid.distance;
  const ox = ray[0];
  const oy = ray[1];
  const oz = ray[2];
  const dx = ray[3];
  const dy = ray[4];
  const dz = ray[5];
  const plain = solid.limbs.length === 0;
  const lipFrom = solid.lipPull > 0 ? solid.lipFrom : Number.POSITIVE_INFINITY;
  const lastU = columns - 1.001;
  const lastV = rows - 1.001;
  let t = enter;
  let stretch = boldness;
  let stepMm = 0;
  let freeBefore = 0;
  for (let step = 0; step < stepsMax; step++) {
    const x = ox + dx * t;
    const y = oy + dy * t;
    const z = oz + dz * t;
    let radius = Math.sqrt(x * x + z * z);
    let steepness = 1;
    if (y > lipFrom && x > 0) {
      radius = radiusAtLip(solid, radius, x, y);
      steepness = lipSteepness;
    }
    const u = Math.min(lastU, radius * perMm);
    const v = Math.max(0, Math.min(lastV, (y - bottom) * perMm));
    const iu = u | 0;
    const iv = v | 0;
    const fu = u - iu;
    const at = iv * columns + iu;
    const low = values[at] + (values[at + 1] - values[at]) * fu;
    const high = values[at + columns] + (values[at + columns + 1] - values[at + columns]) * fu;
    let distance = low + (high - low) * (v - iv);
    if (!plain) distance = joinLimbs(solid, distance, radius, x, y, z);
    distance *= steepness;
    if (stretch > 1 && (distance < 0 || distance + freeBefore < stepMm)) {
      t += freeBefore * caution - stepMm;
      stretch = caution;
      stepMm = 0;
      freeBefore = 0;
      continue;
    }
    if (distance < near) return Math.max(t, 1e-6);
    stepMm = distance * stretch;
    freeBefore = distance;
    t += stepMm;
    if (t >= leave) {
      // A bold last step may have jumped over something thin: look again where careful steps would have ended.
      if (stretch <= 1 || t - stepMm + distance >= leave) return -1;
      t += distance * caution - stepMm;
      stretch = caution;
    }
  }
  return -1;
}

function joinLimb(limb: Limb, body: number, fillet: number, x: number, y: number, z: number): number {
  const spine = sampleGrid(limb.spine, x, y);
  const across = z * limb.flatness;
  const away = Math.sqrt(spine * spine + across * across);
  const half = sampleGrid(limb.half, x, y);
  let tube = Math.max(away - half, limb.cutX * x + limb.cutY * y - limb.cutAt);
  // Of a leaf that lies in the plane three bounds are known, and the greatest is the longest safe step.
  if (limb.flatness > 1) tube = Math.max(tube / limb.flatness, spine - half, Math.abs(z) - limb.bounds[4]);
  const joined = smoothMin(body, tube, fillet);
  if (limb.bore === 0 || sampleGrid(limb.along, x, y) < limb.boreAlong) return joined;
  return Math.max(joined, limb.bore - away);
}

/** I. Quilez, polynomial smooth minimum (quadratic). */
function smoothMin(a: number, b: number, radius: number): number {
  const h = radius - Math.abs(a - b);
  const low = Math.min(a, b);
  return h <= 0 ? low : low - (h * h) / (4 * radius);
}

/** Outward unit normal in the solid's own frame into `out[0..2]`, by central differences over half a millimetre. */
export function solidNormal(solid: Solid, x: number, y: number, z: number, out: Float64Array): void {
  const e = 0.35;
  const nx = solidDistance(solid, x + e, y, z) - solidDistance(solid, x - e, y, z);
  const ny = solidDistance(solid, x, y + e, z) - solidDistance(solid, x, y - e, z);
  const nz = solidDistance(solid, x, y, z + e) - solidDistance(solid, x, y, z - e);
  const scale = 1 / Math.max(1e-9, Math.sqrt(nx * nx + ny * ny + nz * nz));
  out[0] = nx * scale;
  out[1] = ny * scale;
  out[2] = nz * scale;
}
