/**
 * The diffuse light of a region, gathered once per cell of a few pixels and shared out to the pixels between: light is
 * smooth where colour and outline are not, and it is what costs the rays.
 */
import { addBounce } from './bounce.ts';
import { addPanelLight, type SurfacePoint } from './panel-light.ts';
import { surfaceAt } from './shade.ts';
import type { Camera, Stage } from './stage.ts';
import { type Ray, traceRay } from './trace.ts';

/** Cells over a region of the rendering and some around it. */
export interface SoftLight {
  /** Pixels per cell and side. */
  readonly cellPx: number;
  /** Cell of the first column and row, counted from the rendering's top left. */
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
  /** What each cell's centre shows (see `trace.ts`), where it is and how it faces. */
  readonly what: Int16Array;
  readonly place: Float32Array;
  readonly facing: Float32Array;
  /** Irradiance over pi, RGB. */
  readonly light: Float32Array;
}

/** Cells kept around the region, so that its border is filtered and shared out like its middle. */
const apron = 4;
/** Rays for the bounce, squared. */
const bounceSide = 4;
/** Each 4 x 4 block of cells takes sixteen shifts of the sample grids; the filter below averages whole blocks. */
const block = 4;

const point: SurfacePoint = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0 };
const ray: Ray = new Float64Array(6);
const met = new Float64Array(1);
const gathered = new Float64Array(3);

/** The camera's ray through a point of the rendering, pixels. */
export function cameraRay(camera: Camera, x: number, y: number, out: Ray): void {
  const { eye, forward, right, down } = camera;
  out[0] = eye[0];
  out[1] = eye[1];
  out[2] = eye[2];
  const u = x - camera.centreX;
  const v = y - camera.centreY;
  const dx = forward[0] + right[0] * u + down[0] * v;
  const dy = forward[1] + right[1] * u + down[1] * v;
  const dz = forward[2] + right[2] * u + down[2] * v;
  const scale = 1 / Math.sqrt(dx * dx + dy * dy + dz * dz);
  out[3] = dx * scale;
  out[4] = dy * scale;
  out[5] = dz * scale;
}

/** Irradiance over pi at a point, into `out[0..2]`. The jitters, 0 … 1, shift the sample grids. */
export function gatherLight(
  stage: Stage,
  at: SurfacePoint,
  jitterU: number,
  jitterV: number,
  out: Float64Array,
): void {
  out.fill(stage.evenLight);
  if (stage.evenLight > 0) return;
  addPanelLight(stage, at, jitterU, jitterV, out);
  addBounce(stage, at, bounceSide, jitterV, jitterU, out);
}

export function gatherSoftLight(
  stage: Stage,
  leftPx: number,
  topPx: number,
  widthPx: number,
  heightPx: number,
  cellPx: number,
): SoftLight {
  const left = Math.floor(leftPx / cellPx) - apron;
  const top = Math.floor(topPx / cellPx) - apron;
  const columns = Math.ceil((leftPx + widthPx) / cellPx) + apron - left;
  const rows = Math.ceil((topPx + heightPx) / cellPx) + apron - top;
  const cells = columns * rows;
  const soft: SoftLight = {
    cellPx,
    left,
    top,
    columns,
    rows,
    what: new Int16Array(cells),
    place: new Float32Array(cells * 3),
    facing: new Float32Array(cells * 3),
    light: new Float32Array(cells * 3),
  };
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) gatherCell(stage, soft, row, column);
  }
  return { ...soft, light: filterLight(soft) };
}

function gatherCell(stage: Stage, soft: SoftLight, row: number, column: number): void {
  const x = soft.left + column;
  const y = soft.top + row;
  cameraRay(stage.camera, (x + 0.5) * soft.cellPx, (y + 0.5) * soft.cellPx, ray);
  const what = traceRay(stage, ray, met);
  const cell = row * soft.columns + column;
  soft.what[cell] = what;
  if (what === -1) return;
  surfaceAt(stage, what, ray, met[0], point);
  const place = (((y % block) + block) % block) * block + (((x % block) + block) % block);
  const shift = shiftOrder[place];
  gatherLight(stage, point, (shift + 0.5) / 16, (((shift * 7) % 16) + 0.5) / 16, gathered);
  const at = cell * 3;
  soft.place[at] = point.x;
  soft.place[at + 1] = point.y;
  soft.place[at + 2] = point.z;
  soft.facing[at] = point.nx;
  soft.facing[at + 1] = point.ny;
  soft.facing[at + 2] = point.nz;
  for (let k = 0; k < 3; k++) soft.light[at + k] = gathered[k];
}

/** Bayer's ordered dither: neighbours in a block get shifts far apart. */
const shiftOrder = [0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5];

/** A box of one block, centred (half weights at its ends), over cells of the same surface. */
function filterLight(soft: SoftLight): Float32Array {
  const { columns, rows, light, what } = soft;
  const out = new Float32Array(light.length);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      if (what[cell] === -1) continue;
      let sum = 0;
      let red = 0;
      let green = 0;
      let blue = 0;
      for (let dy = -2; dy <= 2; dy++) {
        const y = row + dy;
        if (y < 0 || y >= rows) continue;
        for (let dx = -2; dx <= 2; dx++) {
          const x = column + dx;
          if (x < 0 || x >= columns) continue;
          const other = y * columns + x;
          if (what[other] !== what[cell]) continue;
          const box = (dx === -2 || dx === 2 ? 0.5 : 1) * (dy === -2 || dy === 2 ? 0.5 : 1);
          const weight = box * likeness(soft, other, soft.place, soft.facing, cell * 3);
          sum += weight;
          red += weight * light[other * 3];
          green += weight * light[other * 3 + 1];
          blue += weight * light[other * 3 + 2];
        }
      }
      out[cell * 3] = red / sum;
      out[cell * 3 + 1] = green / sum;
      out[cell * 3 + 2] = blue / sum;
    }
  }
  return out;
}

/** How much a cell lies on the same piece of surface as a point: 1 the same, 0 round a corner or behind. */
function likeness(
  soft: SoftLight,
  cell: number,
  place: Float32Array | Float64Array,
  facing: Float32Array | Float64Array,
  at: number,
): number {
  const c = cell * 3;
  const turn =
    soft.facing[c] * facing[at] + soft.facing[c + 1] * facing[at + 1] + soft.facing[c + 2] * facing[at + 2];
  if (turn <= 0.5) return 0;
  const apart =
    (soft.place[c] - place[at]) * facing[at] +
    (soft.place[c + 1] - place[at + 1]) * facing[at + 1] +
    (soft.place[c + 2] - place[at + 2]) * facing[at + 2];
  const near = 1 - Math.abs(apart) / 3;
  return near <= 0 ? 0 : near * turn * turn * turn * turn;
}

const here = new Float64Array(3);
const faced = new Float64Array(3);

/** Light at a point seen at (x, y) pixels of the rendering, from the cells around it, or gathered anew where none fits. */
export function lightAt(
  stage: Stage,
  soft: SoftLight,
  what: number,
  at: SurfacePoint,
  x: number,
  y: number,
  out: Float64Array,
): void {
  here[0] = at.x;
  here[1] = at.y;
  here[2] = at.z;
  faced[0] = at.nx;
  faced[1] = at.ny;
  faced[2] = at.nz;
  const u = x / soft.cellPx - 0.5 - soft.left;
  const v = y / soft.cellPx - 0.5 - soft.top;
  const column = Math.floor(u);
  const row = Math.floor(v);
  let sum = 0;
  out.fill(0);
  for (let corner = 0; corner < 4; corner++) {
    const cx = column + (corner & 1);
    const cy = row + (corner >> 1);
    if (cx < 0 || cy < 0 || cx >= soft.columns || cy >= soft.rows) continue;
    const cell = cy * soft.columns + cx;
    if (soft.what[cell] !== what) continue;
    const near = (1 - Math.abs(u - cx)) * (1 - Math.abs(v - cy));
    const weight = near * likeness(soft, cell, here, faced, 0);
    sum += weight;
    for (let k = 0; k < 3; k++) out[k] += weight * soft.light[cell * 3 + k];
  }
  if (sum < 0.02) {
    gatherLight(stage, at, 0.5, 0.5, out);
    return;
  }
  for (let k = 0; k < 3; k++) out[k] /= sum;
}
