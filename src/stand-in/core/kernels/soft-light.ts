/**
 * The diffuse light of a region, gathered once per cell of a few pixels and shared out to the pixels between: light is
 * smooth where colour and outline are not, and it is what costs the rays.
 */
import { addBounce } from './bounce.ts';
import { addPanelLight, type SurfacePoint } from './panel-light.ts';
import { surfaceAt } from './shade.ts';
import type { Camera, Stage } from './stage.ts';
import { metNothing, metPaper, type Ray, traceRay } from './trace.ts';

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
  /** 1 where a mirror at the cell's centre would show no solid and no target. */
  readonly clear: Uint8Array;
}

/** Cells kept around the region, so that its border is filtered and shared out like its middle. */
const apron = 4;
/** Rays for the bounce, squared: few where the filter averages a block of shifts, many where a cell speaks for a block. */
const bounceSide = 4;
const coarseSide = 12;
/** Each 4 x 4 block of cells takes sixteen shifts of the sample grids; the filter below averages whole blocks. */
const block = 4;

const point: SurfacePoint = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0 };
const ray: Ray = new Float64Array(6);
const met = new Float64Array(1);
const mirror: Ray = new Float64Array(6);
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
  side: number = bounceSide,
): void {
  out.fill(stage.evenLight);
  if (stage.evenLight > 0) return;
  addPanelLight(stage, at, jitterU, jitterV, out);
  addBounce(stage, at, side, jitterV, jitterU, out);
}

export function gatherSoftLight(
  stage: Stage,
  leftPx: number,
  topPx: number,
  widthPx: number,
  heightPx: number,
  cellPx: number,
): SoftLight {
  // Whole blocks, so that every region sees the same coarse cells.
  const left = Math.floor((leftPx / cellPx - apron) / block) * block;
  const top = Math.floor((topPx / cellPx - apron) / block) * block;
  const columns = Math.ceil(((leftPx + widthPx) / cellPx + apron - left) / block) * block + 1;
  const rows = Math.ceil(((topPx + heightPx) / cellPx + apron - top) / block) * block + 1;
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
    clear: new Uint8Array(cells),
  };
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) findCell(stage, soft, row, column);
  }
  const known = new Uint8Array(cells);
  for (let step = block; step >= 1; step >>= 1) {
    for (let row = 0; row < rows; row += step) {
      for (let column = 0; column < columns; column += step) {
        const cell = row * columns + column;
        if (known[cell] === 1 || soft.what[cell] === metNothing) continue;
        known[cell] = 1;
        if (step < block && shareCoarse(soft, row, column, step)) continue;
        gatherCell(stage, soft, row, column, step === block);
      }
    }
  }
  return { ...soft, light: filterLight(soft) };
}

/**
 * How far coarser neighbours may differ for nothing to be gathered between them: two by so much, four by more where they
 * lie on one slope, that is, where both diagonals have one mean. What is left wrong is a few thousandths.
 */
const alike = 0.025;
const alikeOnSlope = 0.06;
const diagonalsAlike = 0.004;

/**
 * Gives a cell the mean of its two or four coarser neighbours, where they lie on one surface and are alike. Light is
 * smooth nearly everywhere; only shadows' edges are gathered cell by cell.
 */
function shareCoarse(soft: SoftLight, row: number, column: number, step: number): boolean {
  const { columns, rows, what, light } = soft;
  const twice = step * 2;
  const dx = column % twice === 0 ? 0 : step;
  const dy = row % twice === 0 ? 0 : step;
  if (column + dx >= columns || row + dy >= rows) return false;
  const cell = row * columns + column;
  const a = cell - dy * columns - dx;
  const b = cell - dy * columns + dx;
  const c = cell + dy * columns - dx;
  const d = cell + dy * columns + dx;
  const thing = what[cell];
  if (what[a] !== thing || what[b] !== thing || what[c] !== thing || what[d] !== thing) return false;
  if (!isAmongAlike(soft, row, column)) return false;
  const ga = light[a * 3 + 1];
  const gb = light[b * 3 + 1];
  const gc = light[c * 3 + 1];
  const gd = light[d * 3 + 1];
  const most = Math.max(ga, gb, gc, gd);
  const four = dx > 0 && dy > 0;
  if (most - Math.min(ga, gb, gc, gd) > (four ? alikeOnSlope : alike) * most) return false;
  if (four && Math.abs(ga + gd - gb - gc) > 2 * diagonalsAlike * most) return false;
  const likely =
    likeness(soft, a, soft.place, soft.facing, cell * 3) +
    likeness(soft, b, soft.place, soft.facing, cell * 3) +
    likeness(soft, c, soft.place, soft.facing, cell * 3) +
    likeness(soft, d, soft.place, soft.facing, cell * 3);
  if (likely < 3.5) return false;
  for (let k = 0; k < 3; k++) {
    light[cell * 3 + k] = (light[a * 3 + k] + light[b * 3 + k] + light[c * 3 + k] + light[d * 3 + k]) / 4;
  }
  soft.clear[cell] = soft.clear[a] & soft.clear[b] & soft.clear[c] & soft.clear[d];
  return true;
}

/** Whether the eight cells around show the same thing: along its edge light changes within a cell. */
function isAmongAlike({ what, columns, rows }: SoftLight, row: number, column: number): boolean {
  if (row < 1 || column < 1 || row + 1 >= rows || column + 1 >= columns) return false;
  const cell = row * columns + column;
  for (let dy = -columns; dy <= columns; dy += columns) {
    for (let dx = -1; dx <= 1; dx++) if (what[cell + dy + dx] !== what[cell]) return false;
  }
  return true;
}

/** What a cell shows, where that is and how it faces. */
function findCell(stage: Stage, soft: SoftLight, row: number, column: number): void {
  const x = soft.left + column;
  const y = soft.top + row;
  cameraRay(stage.camera, (x + 0.5) * soft.cellPx, (y + 0.5) * soft.cellPx, ray);
  const what = traceRay(stage, ray, met);
  const cell = row * soft.columns + column;
  soft.what[cell] = what;
  if (what === metNothing) return;
  surfaceAt(stage, what, ray, met[0], point);
  const at = cell * 3;
  soft.place[at] = point.x;
  soft.place[at + 1] = point.y;
  soft.place[at + 2] = point.z;
  soft.facing[at] = point.nx;
  soft.facing[at + 1] = point.ny;
  soft.facing[at + 2] = point.nz;
}

function gatherCell(stage: Stage, soft: SoftLight, row: number, column: number, coarse: boolean): void {
  const x = soft.left + column;
  const y = soft.top + row;
  const cell = row * soft.columns + column;
  const at = cell * 3;
  point.x = soft.place[at];
  point.y = soft.place[at + 1];
  point.z = soft.place[at + 2];
  point.nx = soft.facing[at];
  point.ny = soft.facing[at + 1];
  point.nz = soft.facing[at + 2];
  const place = (((y % block) + block) % block) * block + (((x % block) + block) % block);
  // A coarse cell speaks for its whole block, so it takes the middle of all shifts.
  const shift = coarse ? 7.5 : shiftOrder[place];
  gatherLight(
    stage,
    point,
    (shift + 0.5) / 16,
    (((shift * 7) % 16) + 0.5) / 16,
    gathered,
    coarse ? coarseSide : bounceSide,
  );
  for (let k = 0; k < 3; k++) soft.light[at + k] = gathered[k];
  if (soft.what[cell] < 0) return;
  cameraRay(stage.camera, (x + 0.5) * soft.cellPx, (y + 0.5) * soft.cellPx, ray);
  soft.clear[cell] = mirrorsNoThing(stage) ? 1 : 0;
}

/** Whether the mirrored camera ray at `point` goes by all solids and the target. */
function mirrorsNoThing(stage: Stage): boolean {
  const facing = ray[3] * point.nx + ray[4] * point.ny + ray[5] * point.nz;
  mirror[0] = point.x + point.nx * 0.3;
  mirror[1] = point.y + point.ny * 0.3;
  mirror[2] = point.z + point.nz * 0.3;
  mirror[3] = ray[3] - 2 * facing * point.nx;
  mirror[4] = ray[4] - 2 * facing * point.ny;
  mirror[5] = ray[5] - 2 * facing * point.nz;
  const seen = traceRay(stage, mirror, met);
  return seen === metPaper || seen === metNothing || seen >= stage.solids.length;
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

/**
 * Light at a point seen at (x, y) pixels of the rendering, from the cells around it, or gathered anew where none fits.
 * Answers whether none of those cells mirrors a thing, so that the point will not either.
 */
export function lightAt(
  stage: Stage,
  soft: SoftLight,
  what: number,
  at: SurfacePoint,
  x: number,
  y: number,
  out: Float64Array,
): boolean {
  const u = x / soft.cellPx - 0.5 - soft.left;
  const v = y / soft.cellPx - 0.5 - soft.top;
  const column = Math.floor(u);
  const row = Math.floor(v);
  if (what === metPaper && lightOnPaper(soft, u, v, column, row, out)) return true;
  here[0] = at.x;
  here[1] = at.y;
  here[2] = at.z;
  faced[0] = at.nx;
  faced[1] = at.ny;
  faced[2] = at.nz;
  let sum = 0;
  let clear = true;
  let red = 0;
  let green = 0;
  let blue = 0;
  for (let corner = 0; corner < 4; corner++) {
    const cx = column + (corner & 1);
    const cy = row + (corner >> 1);
    if (cx < 0 || cy < 0 || cx >= soft.columns || cy >= soft.rows) continue;
    const cell = cy * soft.columns + cx;
    if (soft.what[cell] !== what || soft.clear[cell] === 0) clear = false;
    if (soft.what[cell] !== what) continue;
    const near = (1 - Math.abs(u - cx)) * (1 - Math.abs(v - cy));
    const weight = near * likeness(soft, cell, here, faced, 0);
    sum += weight;
    red += weight * soft.light[cell * 3];
    green += weight * soft.light[cell * 3 + 1];
    blue += weight * soft.light[cell * 3 + 2];
  }
  if (sum < 0.02) {
    gatherLight(stage, at, 0.5, 0.5, out);
    return false;
  }
  out[0] = red / sum;
  out[1] = green / sum;
  out[2] = blue / sum;
  return clear;
}

/** Paper is smooth: between four cells of it light is bilinear, and half of all pixels are done here. */
function lightOnPaper(
  soft: SoftLight,
  u: number,
  v: number,
  column: number,
  row: number,
  out: Float64Array,
): boolean {
  const { what, light, columns } = soft;
  if (column < 0 || row < 0 || column + 1 >= columns || row + 1 >= soft.rows) return false;
  const cell = row * columns + column;
  if (what[cell] !== metPaper || what[cell + 1] !== metPaper) return false;
  if (what[cell + columns] !== metPaper || what[cell + columns + 1] !== metPaper) return false;
  const fu = u - column;
  const fv = v - row;
  const a = (1 - fu) * (1 - fv);
  const b = fu * (1 - fv);
  const c = (1 - fu) * fv;
  const d = fu * fv;
  const i = cell * 3;
  const j = i + columns * 3;
  out[0] = a * light[i] + b * light[i + 3] + c * light[j] + d * light[j + 3];
  out[1] = a * light[i + 1] + b * light[i + 4] + c * light[j + 1] + d * light[j + 4];
  out[2] = a * light[i + 2] + b * light[i + 5] + c * light[j + 2] + d * light[j + 5];
  return true;
}
