/** A region of the rendering through a pinhole, pixel by pixel; outlines by many rays, the rest by one. */
import type { SurfacePoint } from './panel-light.ts';
import { isStep, type Probe, probeSurface, tilePlace } from './probe.ts';
import { shadePoint, surfaceAt } from './shade.ts';
import { cameraRay, gatherSoftLight, lightAt, type SoftLight } from './soft-light.ts';
import { type Stage, stuffStripes } from './stage.ts';
import { metCard, metNothing, type Ray, traceFrom } from './trace.ts';

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
  const { stage, left, top, widthPx, heightPx } = input;
  const soft = gatherSoftLight(stage, left, top, widthPx, heightPx, input.cellPx);
  const probe = probeSurface(input);
  const outline = findOutlines(input, probe);
  const { focusMm } = stage.camera.lens;
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = row * widthPx + column;
      const probed = (row + probe.padY) * probe.wide + column + probe.padX;
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
      out.depth[at] = depth;
      out.spread[at] = spread;
      out.detail[at] = isOutline || thing === metCard || (thing >= 0 && !isGround(stage, thing)) ? 1 : 0;
      if (spread === 0 && !isOutline && probe.coarse[probed] === 1) continue;
      if (spread === 1) renderSpread(input, soft, probe, left + column + 0.5, top + row + 0.5);
      else renderProbed(input, soft, probe, row, column);
      for (let k = 0; k < 3; k++) out.linear[at * 3 + k] = Math.max(colour[k], 0);
    }
  }
  fillCoarse(input, probe, outline, out);
}

/** Pixels without a ray of their own: the mean of the two or four with one about them. */
function fillCoarse(
  { widthPx, heightPx }: RowsInput,
  probe: Probe,
  outline: Uint8Array,
  { linear, spread }: RowsOutput,
): void {
  for (let row = 0; row < heightPx; row++) {
    const oddY = (row + probe.padY) & 1;
    const above = Math.max(0, row - oddY);
    const below = Math.min(heightPx - 1, row + oddY);
    for (let column = 0; column < widthPx; column++) {
      const at = row * widthPx + column;
      if (probe.coarse[(row + probe.padY) * probe.wide + column + probe.padX] === 0) continue;
      if (outline[at] === 1 || spread[at] === 1) continue;
      const oddX = (column + probe.padX) & 1;
      const before = Math.max(0, column - oddX);
      const after = Math.min(widthPx - 1, column + oddX);
      const a = (above * widthPx + before) * 3;
      const b = (above * widthPx + after) * 3;
      const c = (below * widthPx + before) * 3;
      const d = (below * widthPx + after) * 3;
      for (let k = 0; k < 3; k++) {
        linear[at * 3 + k] = (linear[a + k] + linear[b + k] + linear[c + k] + linear[d + k]) * 0.25;
      }
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
  const place = tilePlace(probe, x, y);
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
  const { stage, left, top } = input;
  const at = (row + probe.padY) * probe.wide + column + probe.padX;
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
      markAround(outline, widthPx, heightPx, column - probe.padX, row - probe.padY, spreadReach);
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
