/**
 * What single rays of the camera meet. Where everything about lies well out of focus, every second pixel of every second
 * row is enough: the pixels between are only `coarse`, and take their colour from those around them.
 */
import type { SurfacePoint } from './panel-light.ts';
import { surfaceAt } from './shade.ts';
import { cameraRay } from './soft-light.ts';
import type { Card, Stage } from './stage.ts';
import { approachThings, metCard, metNothing, type Ray, traceFrom } from './trace.ts';

export interface ProbeInput {
  readonly stage: Stage;
  /** The region, pixels of the rendering, and how far around it pixels are asked for. */
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly spreadReach: number;
  readonly farRadiusPx: number;
}

/** A place per pixel, `wide * high` of them; the region's first pixel is at (`padX`, `padY`). */
export interface Probe {
  readonly wide: number;
  readonly high: number;
  readonly padX: number;
  readonly padY: number;
  readonly thing: Int16Array;
  /** The same, but with a number of its own for each patch of the target. */
  readonly what: Int16Array;
  /** Along the ray, and along the lens's axis, mm. */
  readonly away: Float32Array;
  readonly depth: Float32Array;
  readonly facing: Float32Array;
  /** 1 where no ray was sent: what is said of the pixel is its neighbour's. */
  readonly coarse: Uint8Array;
  /** Width of a pixel at a depth of one millimetre. */
  readonly pixelShare: number;
  /** How far each tile's rays may go free, a place per tile and thing (`approachThings`); tiles from the rendering's own. */
  readonly tileX: number;
  readonly tileY: number;
  readonly tilesWide: number;
  readonly things: number;
  readonly starts: Float32Array;
}

/** Pixels per side of a tile whose rays share the way through free space. */
const tilePx = 8;
/** A circle of this radius, pixels, blurs every second pixel away. */
const coarseFromPx = 2.2;

const point: SurfacePoint = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0 };
const ray: Ray = new Float64Array(6);
const met = new Float64Array(1);

export function probeSurface(input: ProbeInput): Probe {
  const { stage, left, top, widthPx, heightPx, spreadReach } = input;
  const { camera } = stage;
  // Tiles and pairs lie on the rendering, not on the region, so that a pixel never depends on who asks.
  const firstX = evenBelow(left - spreadReach - 2);
  const firstY = evenBelow(top - spreadReach - 2);
  const wide = evenBelow(left + widthPx + spreadReach + 4) - firstX;
  const high = evenBelow(top + heightPx + spreadReach + 4) - firstY;
  const tileX = Math.floor(firstX / tilePx);
  const tileY = Math.floor(firstY / tilePx);
  const tilesWide = Math.ceil((firstX + wide) / tilePx) - tileX;
  const tilesHigh = Math.ceil((firstY + high) / tilePx) - tileY;
  const things = stage.solids.length + stage.slabs.length;
  const probe: Probe = {
    wide,
    high,
    padX: left - firstX,
    padY: top - firstY,
    thing: new Int16Array(wide * high),
    what: new Int16Array(wide * high),
    away: new Float32Array(wide * high),
    depth: new Float32Array(wide * high),
    facing: new Float32Array(wide * high * 3),
    coarse: new Uint8Array(wide * high),
    pixelShare: camera.pixelMm / Math.hypot(camera.forward[0], camera.forward[1], camera.forward[2]),
    tileX,
    tileY,
    tilesWide,
    things,
    starts: new Float32Array(tilesWide * tilesHigh * things),
  };
  approachTiles(stage, probe, tilesHigh, spreadReach);
  for (let y = 0; y < high; y += 2) {
    for (let x = 0; x < wide; x += 2) probePixel(stage, probe, firstX, firstY, x, y);
  }
  for (let y = 0; y < high; y += 2) {
    for (let x = 0; x < wide; x += 2) {
      if (isCoarse(input, probe, x, y)) copyPair(probe, x, y);
      else probeRest(stage, probe, firstX, firstY, x, y);
    }
  }
  return probe;
}

function evenBelow(value: number): number {
  return Math.floor(value / 2) * 2;
}

/** Where a tile's `starts` begin: the tile of a point of the rendering, pixels. */
export function tilePlace(probe: Probe, x: number, y: number): number {
  const row = Math.floor(y / tilePx) - probe.tileY;
  return (row * probe.tilesWide + Math.floor(x / tilePx) - probe.tileX) * probe.things;
}

function approachTiles(stage: Stage, probe: Probe, tilesHigh: number, reachPx: number): void {
  const half = tilePx / 2;
  // Rays of an outline's spread leave their tile a little.
  const share = (half + reachPx) * Math.SQRT2 * probe.pixelShare;
  for (let ty = 0; ty < tilesHigh; ty++) {
    for (let tx = 0; tx < probe.tilesWide; tx++) {
      cameraRay(stage.camera, (probe.tileX + tx) * tilePx + half, (probe.tileY + ty) * tilePx + half, ray);
      approachThings(stage, ray, share, probe.starts, (ty * probe.tilesWide + tx) * probe.things);
    }
  }
}

function probePixel(stage: Stage, probe: Probe, firstX: number, firstY: number, x: number, y: number): void {
  const { camera } = stage;
  const { facing } = probe;
  const at = y * probe.wide + x;
  cameraRay(camera, firstX + x + 0.5, firstY + y + 0.5, ray);
  const seen = traceFrom(stage, ray, probe.starts, tilePlace(probe, firstX + x, firstY + y), met);
  probe.thing[at] = seen;
  probe.what[at] = seen;
  if (seen === metNothing) return;
  surfaceAt(stage, seen, ray, met[0], point);
  if (seen === metCard && stage.card !== null) probe.what[at] = metCard - 1 - cardPlace(stage.card, point);
  const { forward } = camera;
  const axis = Math.sqrt(forward[0] * forward[0] + forward[1] * forward[1] + forward[2] * forward[2]);
  probe.away[at] = met[0];
  probe.depth[at] = (met[0] * (ray[3] * forward[0] + ray[4] * forward[1] + ray[5] * forward[2])) / axis;
  facing[at * 3] = point.nx;
  facing[at * 3 + 1] = point.ny;
  facing[at * 3 + 2] = point.nz;
}

/** The other three pixels of a pair of pairs, as far as they are asked for. */
function probeRest(stage: Stage, probe: Probe, firstX: number, firstY: number, x: number, y: number): void {
  probePixel(stage, probe, firstX, firstY, x + 1, y);
  probePixel(stage, probe, firstX, firstY, x, y + 1);
  probePixel(stage, probe, firstX, firstY, x + 1, y + 1);
}

/** Well out of focus, and no step to any of the eight pairs around. */
function isCoarse({ stage, farRadiusPx }: ProbeInput, probe: Probe, x: number, y: number): boolean {
  const { wide, high, depth } = probe;
  if (x < 2 || y < 2 || x + 2 >= wide || y + 2 >= high) return false;
  const at = y * wide + x;
  const z = depth[at];
  if (!(farRadiusPx * Math.abs(z - stage.camera.lens.focusMm) >= coarseFromPx * z)) return false;
  for (let dy = -2 * wide; dy <= 2 * wide; dy += 2 * wide) {
    for (let dx = -2; dx <= 2; dx += 2) {
      if (isStep(probe, at, at + dy + dx)) return false;
    }
  }
  return true;
}

function copyPair(probe: Probe, x: number, y: number): void {
  const { wide, facing } = probe;
  const at = y * wide + x;
  for (let k = 1; k < 4; k++) {
    const to = at + (k & 1) + (k >> 1) * wide;
    probe.thing[to] = probe.thing[at];
    probe.what[to] = probe.what[at];
    probe.away[to] = probe.away[at];
    probe.depth[to] = probe.depth[at];
    probe.coarse[to] = 1;
    facing[to * 3] = facing[at * 3];
    facing[to * 3 + 1] = facing[at * 3 + 1];
    facing[to * 3 + 2] = facing[at * 3 + 2];
  }
}

/** A number per patch and one for the border, so that edges of patches count as outlines. */
function cardPlace(card: Card, at: SurfacePoint): number {
  const wx = at.x - card.centre[0];
  const wy = at.y - card.centre[1];
  const wz = at.z - card.centre[2];
  const u = wx * card.across[0] + wy * card.across[1] + wz * card.across[2];
  const v = wx * card.up[0] + wy * card.up[1] + wz * card.up[2];
  const column = Math.floor(u / card.patchPitch);
  const row = Math.floor(v / card.patchPitch);
  const inside =
    Math.abs(u - (column + 0.5) * card.patchPitch) < card.patchSide / 2 &&
    Math.abs(v - (row + 0.5) * card.patchPitch) < card.patchSide / 2;
  return inside ? (column + 16) * 32 + row + 16 : 0;
}

/** Whether two pixels show another thing, another depth or a fold. */
export function isStep(probe: Probe, a: number, b: number): boolean {
  const { what, depth, facing } = probe;
  if (what[a] !== what[b]) return true;
  if (what[a] < metNothing) return false;
  const turn =
    facing[a * 3] * facing[b * 3] +
    facing[a * 3 + 1] * facing[b * 3 + 1] +
    facing[a * 3 + 2] * facing[b * 3 + 2];
  return turn < 0.85 || Math.abs(depth[a] - depth[b]) > 14 * depth[a] * probe.pixelShare;
}
