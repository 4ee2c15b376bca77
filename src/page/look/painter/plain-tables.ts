import { identityMatrix, type Matrix3, rgbSpaces, type Vector3 } from '../../../colour/index.ts';
import type { RgbHalf } from '../../../image/index.ts';
import { fromHalves } from '../../../image/kernels/half-floats.ts';
import { falloffSteepness, latticeNumbers, workingLuminance } from '../../../look/index.ts';
import { applyLattice } from '../../../look/kernels/apply-lattice.ts';
import { renderLight } from '../../../look/kernels/render-light.ts';
import { type Drawing, outputLuminance, outputMatrix, type Placed, type Tables } from './painter.ts';

/** Takes `count` pixels from scene light to display light of the output space, within 0 … 1, in place. */
export type LightRun = (strip: Float32Array, count: number) => void;

/** The same of one row, whose pixels lie so far from the middle: squares of half diagonals. */
export type RowRun = (strip: Float32Array, away: Float32Array, count: number) => void;

/** The tables as the station's workers apply them, with the same kernels. */
export function lightOf(tables: Tables): RowRun {
  const { falloffEv } = tables;
  const run = tablesOf(tables);
  if (falloffEv === 0) return (strip, _away, count) => run(strip, count);
  const steep = falloffSteepness(falloffEv);
  return (strip, away, count) => {
    for (let pixel = 0; pixel < count; pixel++) {
      const root = (1 + steep * (away[pixel] ?? 0)) ** 2;
      const gain = falloffEv < 0 ? 1 / root : root;
      for (let at = pixel * 3; at < pixel * 3 + 3; at++) strip[at] = (strip[at] ?? 0) * gain;
    }
    run(strip, count);
  };
}

function tablesOf({ matrix, curve, table }: Tables): LightRun {
  const samples = curve?.samples ?? new Float32Array(0);
  const { sceneWhite, slopeAtBlack } = curve ?? { sceneWhite: 1, slopeAtBlack: 1 };
  const run = (first: Matrix3, curved: boolean, last: Matrix3, luminance: Vector3): LightRun => {
    const [toScene, toOutput] = [Float64Array.from(first), Float64Array.from(last)];
    const weights = Float64Array.from(luminance);
    const own = curved ? samples : new Float32Array(0);
    return (strip, count) =>
      renderLight(strip, count, toScene, own, sceneWhite, slopeAtBlack, toOutput, weights);
  };
  if (table === null) return run(matrix, true, outputMatrix, outputLuminance);
  const toDisplay = run(matrix, true, identityMatrix, workingLuminance);
  const toOutput = run(outputMatrix, false, identityMatrix, outputLuminance);
  const numbers = latticeNumbers(table);
  return (strip, count) => {
    toDisplay(strip, count);
    applyLattice(strip, count, numbers);
    toOutput(strip, count);
  };
}

/** The byte for each of 65,536 even steps of light. */
const codes = Uint8Array.from({ length: 65_536 }, (_, step) =>
  Math.round(255 * rgbSpaces.srgb.transfer.encode(step / 65_535)),
);

/** Draws row by row; a place between pixels takes the nearest. RGBA, `widthPx x heightPx x 4`. */
export function paintPlain(
  scene: RgbHalf,
  now: RowRun,
  before: RowRun | null,
  { placed, edge }: Drawing,
): Uint8ClampedArray<ArrayBuffer> {
  const { widthPx, heightPx } = placed;
  const out = new Uint8ClampedArray(widthPx * heightPx * 4);
  const row = new Float32Array(widthPx * 3);
  const away = new Float32Array(widthPx);
  const edgePx = before === null ? 0 : Math.round(Math.min(1, Math.max(0, edge)) * widthPx);
  for (let line = 0; line < heightPx; line++) {
    fillRow(scene, placed, line, row, away);
    if (before !== null && edgePx > 0) before(row.subarray(0, edgePx * 3), away, edgePx);
    if (edgePx < widthPx) now(row.subarray(edgePx * 3), away.subarray(edgePx), widthPx - edgePx);
    for (let column = 0, at = line * widthPx * 4; column < widthPx; column++, at += 4) {
      out[at] = code(row[column * 3]);
      out[at + 1] = code(row[column * 3 + 1]);
      out[at + 2] = code(row[column * 3 + 2]);
      out[at + 3] = 255;
    }
  }
  return out;
}

function code(light = 0): number {
  return codes[light > 0 ? (light < 1 ? (light * 65_535 + 0.5) | 0 : 65_535) : 0] ?? 0;
}

function fillRow(scene: RgbHalf, placed: Placed, line: number, row: Float32Array, away: Float32Array): void {
  const { widthPx, heightPx, middle } = placed;
  const [a, b, c, d, e, f, g, h, i] = placed.toScene;
  const y = (line + 0.5) / heightPx;
  for (let column = 0; column < widthPx; column++) {
    const x = (column + 0.5) / widthPx;
    const w = g * x + h * y + i;
    const [across, down] = [(a * x + b * y + c) / w, (d * x + e * y + f) / w];
    away[column] = (across * middle.scaleX - middle.x) ** 2 + (down * middle.scaleY - middle.y) ** 2;
    if (across < 0 || across >= 1 || down < 0 || down >= 1) {
      row.fill(0, column * 3, column * 3 + 3);
      continue;
    }
    const from = Math.floor(down * scene.heightPx) * scene.widthPx + Math.floor(across * scene.widthPx);
    fromHalves(scene.halves, from * 3, 3, row, column * 3);
  }
}
