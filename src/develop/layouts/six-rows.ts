import type { Vector3 } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import type { Region } from '../../image/index.ts';
import { rootFoot } from '../kernels/root-scale.ts';
import { bendOf, blurSeven, joinGreen, sumTaps } from '../kernels/six-planes.ts';
import type { BinPlan } from '../plan.ts';
import { blurWeights, unrestFloor } from './six-reference.ts';
import { alongColumn, alongRow, differenceTaps, greenTaps, type SixTaps, sixTaps } from './six-taps.ts';

/** How far a pixel looks: taps along a direction, a second difference, a blur, and taps around. */
const margin = { taps: 4, bend: 5, blur: 8, all: 11 };

/** Rows made at one time: those of the margins are made twice, so many are better than few. */
const chunkRows = 96;

/** Brings rows of a window, counted from its top, as interleaved light. */
export type RowSource = (rowStart: number, rowEnd: number, out: Float32Array) => void;

/**
 * Balanced camera RGB of a window of a 6 x 6 mosaic at full size; see `sixReference`. Memory: nine planes of 118 rows. The
 * mosaic is at least 6 x 6.
 */
export function sixRows(
  mosaic: Mosaic,
  filters: readonly number[],
  plan: BinPlan,
  window: Region,
): RowSource {
  const stride = window.widthPx + 2 * margin.all;
  const steps = stepsOf(filters, stride);
  const rowsMax = Math.min(chunkRows, window.heightPx) + 2 * margin.all;
  const plane = (): Float32Array => new Float32Array(rowsMax * stride);
  const planes: Planes = {
    root: plane(),
    byRow: plane(),
    byColumn: plane(),
    bend: plane(),
    passed: plane(),
    unrestInRow: plane(),
    unrestInColumn: plane(),
    green: plane(),
    above: plane(),
  };
  const light = lightOf(mosaic, filters, plan);
  const made = new Float32Array(Math.min(chunkRows, window.heightPx) * window.widthPx * 3);
  let [from, end] = [0, 0];
  const make = (start: number): void => {
    from = start;
    end = Math.min(window.heightPx, start + chunkRows);
    const rows = end - from + 2 * margin.all;
    fillRoot(planes.root, light, window.topPx + from - margin.all, window.leftPx - margin.all, rows, stride);
    const phaseRow = phaseOf(window.topPx + from - margin.all);
    const phaseColumn = phaseOf(window.leftPx - margin.all);
    demosaic(planes, steps, rows, stride, phaseRow, phaseColumn);
    write(
      planes,
      light,
      steps,
      { ...window, topPx: window.topPx + from, heightPx: end - from },
      stride,
      made,
    );
  };
  return (rowStart, rowEnd, out) => {
    const length = window.widthPx * 3;
    for (let row = rowStart; row < rowEnd; row++) {
      if (row < from || row >= end) make(row);
      out.set(made.subarray((row - from) * length, (row - from + 1) * length), (row - rowStart) * length);
    }
  };
}

interface Planes {
  readonly root: Float32Array;
  readonly byRow: Float32Array;
  readonly byColumn: Float32Array;
  readonly bend: Float32Array;
  readonly passed: Float32Array;
  readonly unrestInRow: Float32Array;
  readonly unrestInColumn: Float32Array;
  readonly green: Float32Array;
  readonly above: Float32Array;
}

interface Steps {
  readonly byRow: SixTaps;
  readonly byColumn: SixTaps;
  readonly red: SixTaps;
  readonly blue: SixTaps;
}

function stepsOf(filters: readonly number[], stride: number): Steps {
  return {
    byRow: sixTaps(stride, (y, x) => greenTaps(filters, y, x, alongRow)),
    byColumn: sixTaps(stride, (y, x) => greenTaps(filters, y, x, alongColumn)),
    red: sixTaps(stride, (y, x) => differenceTaps(filters, y, x, 0)),
    blue: sixTaps(stride, (y, x) => differenceTaps(filters, y, x, 2)),
  };
}

const blur = Float64Array.from(blurWeights);

function demosaic(
  planes: Planes,
  { byRow, byColumn }: Steps,
  rows: number,
  stride: number,
  phaseRow: number,
  phaseColumn: number,
): void {
  const { root, bend, passed } = planes;
  const along = (
    { starts, offsets, weights }: SixTaps,
    step: number,
    green: Float32Array,
    unrest: Float32Array,
  ): void => {
    sumTaps(root, rows, stride, margin.taps, phaseRow, phaseColumn, starts, offsets, weights, green);
    bendOf(green, rows, stride, margin.bend, step, bend);
    blurSeven(bend, rows, stride, margin.bend, margin.blur, 1, blur, passed);
    blurSeven(passed, rows, stride, margin.blur, margin.blur, stride, blur, unrest);
  };
  along(byRow, 1, planes.byRow, planes.unrestInRow);
  along(byColumn, stride, planes.byColumn, planes.unrestInColumn);
  const { unrestInRow, unrestInColumn, green, above } = planes;
  const count = rows * stride;
  joinGreen(
    root,
    planes.byRow,
    planes.byColumn,
    unrestInRow,
    unrestInColumn,
    count,
    unrestFloor,
    green,
    above,
  );
}

/** Reads the mosaic, which goes on by its repeat. */
interface Light {
  readonly at: (row: number, column: number) => number;
  readonly filterAt: (row: number, column: number) => number;
  readonly saturation: Vector3;
}

export function lightOf(mosaic: Mosaic, filters: readonly number[], plan: BinPlan): Light {
  const { values, widthPx, heightPx, blackLevels, whiteLevel } = mosaic;
  const [black] = blackLevels;
  const { saturation } = plan;
  const scales = saturation.map((limit) => limit / (whiteLevel - black));
  const filterAt = (row: number, column: number): number => filters[phaseOf(row) * 6 + phaseOf(column)] ?? 1;
  return {
    filterAt,
    saturation,
    at: (row, column) => {
      const value = values[within(row, heightPx) * widthPx + within(column, widthPx)] ?? 0;
      return (value - black) * (scales[filterAt(row, column)] ?? 0);
    },
  };
}

function fillRoot(
  root: Float32Array,
  light: Light,
  top: number,
  left: number,
  rows: number,
  stride: number,
): void {
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < stride; column++) {
      root[row * stride + column] = Math.sqrt(Math.max(0, light.at(top + row, left + column) + rootFoot));
    }
  }
}

function write(
  planes: Planes,
  light: Light,
  { red, blue }: Steps,
  window: Region,
  stride: number,
  out: Float32Array,
): void {
  const { green, above, passed, bend } = planes;
  const { leftPx, topPx, widthPx, heightPx } = window;
  const rows = heightPx + 2 * margin.all;
  const phaseRow = phaseOf(topPx - margin.all);
  const phaseColumn = phaseOf(leftPx - margin.all);
  const sums = (taps: SixTaps, to: Float32Array): void =>
    sumTaps(
      above,
      rows,
      stride,
      margin.all,
      phaseRow,
      phaseColumn,
      taps.starts,
      taps.offsets,
      taps.weights,
      to,
    );
  sums(red, passed);
  sums(blue, bend);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const at = (row + margin.all) * stride + column + margin.all;
      const own = light.filterAt(topPx + row, leftPx + column);
      const to = (row * widthPx + column) * 3;
      const base = green[at] ?? 0;
      out[to] = lightOfRoot(base + (passed[at] ?? 0), light.saturation[0]);
      out[to + 1] = lightOfRoot(base, light.saturation[1]);
      out[to + 2] = lightOfRoot(base + (bend[at] ?? 0), light.saturation[2]);
      out[to + own] = Math.max(-rootFoot, light.at(topPx + row, leftPx + column));
    }
  }
}

function lightOfRoot(root: number, saturation: number): number {
  return Math.min(saturation, root * Math.abs(root) - rootFoot);
}

/** Place in the repeat. */
function phaseOf(at: number): number {
  return ((at % 6) + 6) % 6;
}

/** Beyond its edge the mosaic goes on six samples further in. */
function within(at: number, count: number): number {
  if (at >= 0 && at < count) return at;
  const inside = at < 0 ? at + 6 * Math.ceil(-at / 6) : at - 6 * Math.ceil((at - count + 1) / 6);
  return Math.min(count - 1, Math.max(0, inside));
}
