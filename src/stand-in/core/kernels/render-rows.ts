/** A region of the rendering, pixel by pixel; outlines by many rays, the rest by one. */
import type { SurfacePoint } from './panel-light.ts';
import { shadePoint, surfaceAt } from './shade.ts';
import { cameraRay, gatherSoftLight, lightAt, type SoftLight } from './soft-light.ts';
import type { Card, Stage } from './stage.ts';
import { metCard, metNothing, type Ray, traceRay } from './trace.ts';

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
  /** Scene value of the highest code; codes are square roots. */
  readonly sceneValueMax: number;
}

const point: SurfacePoint = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0 };
const ray: Ray = new Float64Array(6);
const met = new Float64Array(1);
const light = new Float64Array(3);
const colour = new Float64Array(3);

/** Fills `codes`, RGB interleaved, `widthPx * heightPx` pixels. */
export function renderRows(input: RowsInput, codes: Uint16Array): void {
  const { stage, left, top, widthPx, heightPx } = input;
  const soft = gatherSoftLight(stage, left, top, widthPx, heightPx, input.cellPx);
  const probe = probeSurface(input);
  const outline = findOutlines(input, probe);
  const scale = 65_535 / Math.sqrt(input.sceneValueMax);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const x = left + column + 0.5;
      const y = top + row + 0.5;
      if (outline[row * widthPx + column] === 1) renderSpread(input, soft, x, y);
      else renderProbed(input, soft, probe, row, column);
      const at = (row * widthPx + column) * 3;
      for (let k = 0; k < 3; k++) {
        const code = Math.sqrt(Math.max(0, colour[k])) * scale + 0.5;
        codes[at + k] = Math.min(code, 65_535);
      }
    }
  }
}

function renderRay(stage: Stage, soft: SoftLight, x: number, y: number, out: Float64Array): void {
  cameraRay(stage.camera, x, y, ray);
  const what = traceRay(stage, ray, met);
  if (what === metNothing) {
    out.fill(0);
    return;
  }
  surfaceAt(stage, what, ray, met[0], point);
  lightAt(stage, soft, what, point, x, y, light);
  shadePoint(stage, what, point, light, ray, out);
}

const sample = new Float64Array(3);

function renderSpread(input: RowsInput, soft: SoftLight, x: number, y: number): void {
  const { spread, stage } = input;
  const rays = spread.length >> 1;
  colour.fill(0);
  for (let k = 0; k < rays; k++) {
    renderRay(stage, soft, x + spread[k * 2], y + spread[k * 2 + 1], sample);
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
  const depth = probe.depth[at];
  point.x = ray[0] + ray[3] * depth;
  point.y = ray[1] + ray[4] * depth;
  point.z = ray[2] + ray[5] * depth;
  point.nx = probe.facing[at * 3];
  point.ny = probe.facing[at * 3 + 1];
  point.nz = probe.facing[at * 3 + 2];
  lightAt(stage, soft, what, point, x, y, light);
  shadePoint(stage, what, point, light, ray, colour);
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
  readonly depth: Float32Array;
  readonly facing: Float32Array;
  /** Width of a pixel at a depth of one millimetre. */
  readonly pixelShare: number;
}

function probeSurface({ stage, left, top, widthPx, heightPx, spreadReach }: RowsInput): Probe {
  const { camera } = stage;
  const wide = widthPx + 2 * spreadReach + 1;
  const high = heightPx + 2 * spreadReach + 1;
  const thing = new Int16Array(wide * high);
  const what = new Int16Array(wide * high);
  const depth = new Float32Array(wide * high);
  const facing = new Float32Array(wide * high * 3);
  for (let row = 0; row < high; row++) {
    for (let column = 0; column < wide; column++) {
      const at = row * wide + column;
      cameraRay(camera, left - spreadReach + column + 0.5, top - spreadReach + row + 0.5, ray);
      const seen = traceRay(stage, ray, met);
      thing[at] = seen;
      what[at] = seen;
      if (seen === metNothing) continue;
      surfaceAt(stage, seen, ray, met[0], point);
      if (seen === metCard && stage.card !== null) what[at] = metCard - 1 - cardPlace(stage.card, point);
      depth[at] = met[0];
      facing[at * 3] = point.nx;
      facing[at * 3 + 1] = point.ny;
      facing[at * 3 + 2] = point.nz;
    }
  }
  const pixelShare =
    Math.hypot(camera.right[0], camera.right[1], camera.right[2]) /
    Math.hypot(camera.forward[0], camera.forward[1], camera.forward[2]);
  return { wide, high, thing, what, depth, facing, pixelShare };
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
