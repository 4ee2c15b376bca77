/** A region of the rendering through a pinhole, pixel by pixel; outlines by many rays, the rest by one. */
import type { SurfacePoint } from './panel-light.ts';
import { shadePoint, surfaceAt } from './shade.ts';
import { cameraRay, gatherSoftLight, lightAt, type SoftLight } from './soft-light.ts';
import { type Card, type Stage, stuffStripes } from './stage.ts';
import { approachThings, metCard, metNothing, type Ray, traceFrom } from './trace.ts';

export interface RowsInput {
  readonly stage: Stage;
  /** The region, pixels of the rendering. */
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Pixels per cell of the soft light. */
  readonly cellPx: number;
  /** Where the rays of an outline pixel go, pixels from its centre: x, y, x, y, … */
  readonly spread: Float64Array;
  /** Outline pixels and as far around them as the spread reaches, pixels. */
  readonly spreadReach: number;
  /** Circle of confusion's radius at an infinite distance, pixels; a circle as large as `softFromPx` hides the lens's own blur. */
  readonly farRadiusPx: number;
  readonly softFromPx: number;
}

/** What the pinhole saw, a place per pixel of the region. */
export interface RowsOutput {
  /** RGB interleaved, linear. */
  readonly linear: Float32Array;
  /** Along the lens's axis, mm. */
  readonly depth: Float32Array;
  /** 1 where many rays were spread. */
  readonly spread: Uint8Array;
  /** 1 where there is more than ground. */
  readonly detail: Uint8Array;
}

const point: SurfacePoint = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0 };
const ray: Ray = new Float64Array(6);
const met = new Float64Array(1);
const light = new Float64Array(3);
const colour = new Float64Array(3);

/** Fills `out`; its arrays hold `widthPx * heightPx` pixels. */
export function renderRows(input: RowsInput, out: RowsOutput): void {
  const { stage, left, top, widthPx, heightPx, spreadReach } = input;
  const soft = gatherSoftLight(stage, left, top, widthPx, heightPx, input.cellPx);
  const probe = probeSurface(input);
  const outline = findOutlines(input, probe);
  const { focusMm } = stage.camera.lens;
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = row * widthPx + column;
      const probed = (row + spreadReach) * probe.wide + column + spreadReach;
      const thing = probe.thing[probed];
      const isOutline = outline[at] === 1;
      let depth = probe.depth[probed];
      let spread = 0;
      if (isOutline) {
        const near = nearestAround(probe, probed);
        if ((input.farRadiusPx * Math.abs(near - focusMm)) / near < input.softFromPx) {
          spread = 1;
          depth = near;
        }
      }
      if (spread === 1) renderSpread(input, soft, probe, left + column + 0.5, top + row + 0.5);
      else renderProbed(input, soft, probe, row, column);
      out.depth[at] = depth;
      out.spread[at] = spread;
      out.detail[at] = isOutline || thing === metCard || (thing >= 0 && !isGround(stage, thing)) ? 1 : 0;
      for (let k = 0; k < 3; k++) out.linear[at * 3 + k] = Math.max(colour[k], 0);
    }
  }
}

/** Cloth and wood are made as coarse as their circle of confusion; a print is not. */
function isGround({ solids, slabs, stuffs }: Stage, thing: number): boolean {
  return thing >= solids.length && stuffs[slabs[thing - solids.length].stuff].texture !== stuffStripes;
}

/** Least depth among a pixel and its eight neighbours: what lies in front decides how an outline is blurred. */
function nearestAround({ depth, wide }: Probe, at: number): number {
  let near = Number.POSITIVE_INFINITY;
  for (let dy = -wide; dy <= wide; dy += wide) {
    for (let dx = -1; dx <= 1; dx++) {
      const there = depth[at + dy + dx];
      if (there > 0 && there < near) near = there;
    }
  }
  return near;
}

function renderRay(
  stage: Stage,
  soft: SoftLight,
  probe: Probe,
  place: number,
  x: number,
  y: number,
  out: Float64Array,
): void {
  cameraRay(stage.camera, x, y, ray);
  const what = traceFrom(stage, ray, probe.starts, place, met);
  if (what === metNothing) {
    out.fill(0);
    return;
  }
  surfaceAt(stage, what, ray, met[0], point);
  const clear = lightAt(stage, soft, what, point, x, y, light);
  shadePoint(stage, what, point, light, clear, ray, out);
}

const sample = new Float64Array(3);

function renderSpread(input: RowsInput, soft: SoftLight, probe: Probe, x: number, y: number): void {
  const { spread, stage } = input;
  const tile =
    (Math.floor(y / tilePx) - probe.tileY) * probe.tilesWide + Math.floor(x / tilePx) - probe.tileX;
  const place = tile * probe.things;
  const rays = spread.length >> 1;
  colour.fill(0);
  for (let k = 0; k < rays; k++) {
    renderRay(stage, soft, probe, place, x + spread[k * 2], y + spread[k * 2 + 1], sample);
    for (let channel = 0; channel < 3; channel++) colour[channel] += sample[channel];
  }
  for (let channel = 0; channel < 3; channel++) colour[channel] /= rays;
}

/** A pixel off the outlines: what the probe met need not be traced again. */
function renderProbed(input: RowsInput, soft: SoftLight, probe: Probe, row: number, column: number): void {
  const { stage, left, top, spreadReach } = input;
  const at = (row + spreadReach) * probe.wide + column + spreadReach;
  const what = probe.thing[at];
  if (what === metNothing) {
    colour.fill(0);
    return;
  }
  const x = left + column + 0.5;
  const y = top + row + 0.5;
  cameraRay(stage.camera, x, y, ray);
  const away = probe.away[at];
  point.x = ray[0] + ray[3] * away;
  point.y = ray[1] + ray[4] * away;
  point.z = ray[2] + ray[5] * away;
  point.nx = probe.facing[at * 3];
  point.ny = probe.facing[at * 3 + 1];
  point.nz = probe.facing[at * 3 + 2];
  const clear = lightAt(stage, soft, what, point, x, y, light);
  shadePoint(stage, what, point, light, clear, ray, colour);
}

/** Marks pixels that lie on or near a step: another thing, another depth, a fold. */
function findOutlines(input: RowsInput, probe: Probe): Uint8Array {
  const { widthPx, heightPx, spreadReach } = input;
  const { wide, high } = probe;
  const outline = new Uint8Array(widthPx * heightPx);
  for (let row = 0; row < high - 1; row++) {
    for (let column = 0; column < wide - 1; column++) {
      const at = row * wide + column;
      if (!isStep(probe, at, at + 1) && !isStep(probe, at, at + wide)) continue;
      markAround(outline, widthPx, heightPx, column - spreadReach, row - spreadReach, spreadReach);
    }
  }
  return outline;
}

function markAround(
  outline: Uint8Array,
  widthPx: number,
  heightPx: number,
  column: number,
  row: number,
  reach: number,
): void {
  const lastRow = Math.min(heightPx - 1, row + reach);
  const lastColumn = Math.min(widthPx - 1, column + reach);
  for (let y = Math.max(0, row - reach + 1); y <= lastRow; y++) {
    for (let x = Math.max(0, column - reach + 1); x <= lastColumn; x++) outline[y * widthPx + x] = 1;
  }
}

/** What single rays met, over the region and a rim as wide as the spread. */
interface Probe {
  readonly wide: number;
  readonly high: number;
  readonly thing: Int16Array;
  /** The same, but with a number of its own for each patch of the target. */
  readonly what: Int16Array;
  /** Along the ray, and along the lens's axis, mm. */
  readonly away: Float32Array;
  readonly depth: Float32Array;
  readonly facing: Float32Array;
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

function probeSurface({ stage, left, top, widthPx, heightPx, spreadReach }: RowsInput): Probe {
  const { camera } = stage;
  const wide = widthPx + 2 * spreadReach + 1;
  const high = heightPx + 2 * spreadReach + 1;
  const firstX = left - spreadReach;
  const firstY = top - spreadReach;
  // Tiles lie on the rendering, not on the region, so that a pixel's ray never depends on who asks.
  const tileX = Math.floor(firstX / tilePx);
  const tileY = Math.floor(firstY / tilePx);
  const tilesWide = Math.ceil((firstX + wide) / tilePx) - tileX;
  const tilesHigh = Math.ceil((firstY + high) / tilePx) - tileY;
  const things = stage.solids.length + stage.slabs.length;
  const probe: Probe = {
    wide,
    high,
    thing: new Int16Array(wide * high),
    what: new Int16Array(wide * high),
    away: new Float32Array(wide * high),
    depth: new Float32Array(wide * high),
    facing: new Float32Array(wide * high * 3),
    pixelShare: camera.pixelMm / Math.hypot(camera.forward[0], camera.forward[1], camera.forward[2]),
    tileX,
    tileY,
    tilesWide,
    things,
    starts: new Float32Array(tilesWide * tilesHigh * things),
  };
  for (let ty = 0; ty < tilesHigh; ty++) {
    for (let tx = 0; tx < tilesWide; tx++) probeTile(stage, probe, firstX, firstY, tx, ty, spreadReach);
  }
  return probe;
}

function probeTile(
  stage: Stage,
  probe: Probe,
  firstX: number,
  firstY: number,
  tx: number,
  ty: number,
  reachPx: number,
): void {
  const { camera } = stage;
  const { wide, high, facing, starts } = probe;
  const half = tilePx / 2;
  const tileX = (probe.tileX + tx) * tilePx;
  const tileY = (probe.tileY + ty) * tilePx;
  const place = (ty * probe.tilesWide + tx) * probe.things;
  cameraRay(camera, tileX + half, tileY + half, ray);
  // Rays of an outline's spread leave their tile a little.
  approachThings(stage, ray, (half + reachPx) * Math.SQRT2 * probe.pixelShare, starts, place);
  const axis = Math.hypot(camera.forward[0], camera.forward[1], camera.forward[2]);
  const fromX = Math.max(tileX, firstX);
  const toX = Math.min(tileX + tilePx, firstX + wide);
  const fromY = Math.max(tileY, firstY);
  const toY = Math.min(tileY + tilePx, firstY + high);
  for (let y = fromY; y < toY; y++) {
    for (let x = fromX; x < toX; x++) {
      const at = (y - firstY) * wide + x - firstX;
      cameraRay(camera, x + 0.5, y + 0.5, ray);
      const seen = traceFrom(stage, ray, starts, place, met);
      probe.thing[at] = seen;
      probe.what[at] = seen;
      if (seen === metNothing) continue;
      surfaceAt(stage, seen, ray, met[0], point);
      if (seen === metCard && stage.card !== null)
        probe.what[at] = metCard - 1 - cardPlace(stage.card, point);
      probe.away[at] = met[0];
      probe.depth[at] =
        (met[0] * (ray[3] * camera.forward[0] + ray[4] * camera.forward[1] + ray[5] * camera.forward[2])) /
        axis;
      facing[at * 3] = point.nx;
      facing[at * 3 + 1] = point.ny;
      facing[at * 3 + 2] = point.nz;
    }
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

function isStep(probe: Probe, a: number, b: number): boolean {
  const { what, depth, facing } = probe;
  if (what[a] !== what[b]) return true;
  if (what[a] < metNothing) return false;
  const turn =
    facing[a * 3] * facing[b * 3] +
    facing[a * 3 + 1] * facing[b * 3 + 1] +
    facing[a * 3 + 2] * facing[b * 3 + 2];
  return turn < 0.85 || Math.abs(depth[a] - depth[b]) > 14 * depth[a] * probe.pixelShare;
}
