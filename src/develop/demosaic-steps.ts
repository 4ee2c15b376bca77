import type { Mosaic } from '../facts/index.ts';
import type { Region } from '../image/index.ts';
import { mirrored, mirrorRow, rootRow } from './kernels/balance-rows.ts';
import { blendRow, colourRow, crossRow, differenceRow, unrestRow } from './kernels/demosaic-rows.ts';
import { ringMargin, ringSamples, ringStart, ringStride } from './kernels/ring-rows.ts';
import { rootFoot } from './kernels/root-scale.ts';
import type { BinPlan } from './plan.ts';

/**
 * The steps of the demosaic, bound to one window and its rings. Rows are counted from the window's top and may be
 * negative. `colourColumn` is the first column of the window (0 or 1) whose pixel in that row is red or blue.
 */
export interface DemosaicSteps {
  /** Balanced samples on the root scale, into `plane` from `at` on; `rootRow` says what the numbers are. */
  roots(
    values: Uint16Array,
    from: number,
    count: number,
    scaleA: number,
    footA: number,
    scaleB: number,
    footB: number,
    at: number,
  ): void;
  /** Needs the root rows `row - 2` … `row + 2`. */
  differences(row: number, colourColumn: number): void;
  /** Needs the differences of `row - 1` … `row + 1`. */
  unrest(row: number): void;
  /** Needs the differences and unrest of `row - 3` … `row + 3`. */
  blend(row: number, colourColumn: number): void;
  /** Needs the blends of `row - 3` … `row + 3`. */
  cross(row: number, colourColumn: number): void;
  /** Needs blends and crosses of `row - 1` … `row + 1`; writes balanced RGB to the strip from pixel `pixel` on. */
  colours(row: number, colourColumn: number, colour: number, pixel: number): void;
}

/** Rings that the steps fill: root rows first. */
const rings = 7;

/** Samples of `CameraKernels.plane` at full size. */
export function demosaicSamples(widthPx: number): number {
  return rings * ringSamples(widthPx);
}

/** The steps in TypeScript, on rings in `plane`, into `strip`. */
export function plainDemosaicSteps(
  plane: Float32Array,
  widthPx: number,
  saturation: Float64Array,
  strip: Float32Array,
): DemosaicSteps {
  const stride = ringStride(widthPx);
  const samples = ringSamples(widthPx);
  const ring = (index: number): Float32Array => plane.subarray(index * samples, (index + 1) * samples);
  const root = ring(0);
  const inRow = ring(1);
  const inColumn = ring(2);
  const unrestInRow = ring(3);
  const unrestInColumn = ring(4);
  const blend = ring(5);
  const cross = ring(6);
  return {
    roots: (values, from, count, scaleA, footA, scaleB, footB, at) =>
      rootRow(values, from, count, scaleA, footA, scaleB, footB, plane, at),
    differences: (row, first) => differenceRow(root, row, stride, first, inRow, inColumn),
    unrest: (row) => unrestRow(inRow, inColumn, row, stride, unrestInRow, unrestInColumn),
    blend: (row, first) =>
      blendRow(inRow, inColumn, unrestInRow, unrestInColumn, row, stride, first, widthPx, blend),
    cross: (row, first) => crossRow(blend, row, stride, first, widthPx, cross),
    colours: (row, first, colour, pixel) =>
      colourRow(root, blend, cross, row, stride, first, colour, widthPx, saturation, strip, pixel * 3),
  };
}

/** How far each step runs ahead of the row that is finished. */
const ahead = { root: ringMargin, differences: 8, unrest: 7, blend: 4, cross: 1 };

/**
 * Fills the strip with rows of a window at full size. Rows that follow the last ones asked for find the rings filled;
 * others start ten rows above. Either way a pixel is computed from the same numbers in the same order.
 */
export function demosaicedRows(
  { values, widthPx, heightPx, filters }: Mosaic,
  plan: BinPlan,
  window: Region,
  plane: Float32Array,
  steps: DemosaicSteps,
): (rowStart: number, rowEnd: number) => void {
  const stride = ringStride(window.widthPx);
  const left = window.leftPx - ringMargin;
  const readWidth = window.widthPx + 2 * ringMargin;
  const filterAt = (row: number, column: number): number => {
    const y = (window.topPx + row) & 1;
    return filters[y * 2 + ((window.leftPx + column) & 1)] ?? 1;
  };
  const colourColumn = (row: number): number => (filterAt(row, 0) === 1 ? 1 : 0);
  const { black, scale } = plan;
  const footAt = (position: number): number => rootFoot - (black[position] ?? 0) * (scale[position] ?? 0);
  const inside = Math.max(0, -left);
  const insideEnd = Math.min(readWidth, widthPx - left);
  const bring = (row: number): void => {
    const at = ringStart(row, stride);
    const y = mirrored(window.topPx + row, heightPx);
    const first = (y & 1) * 2 + ((left + inside) & 1);
    const second = first ^ 1;
    const from = y * widthPx + left + inside;
    const count = insideEnd - inside;
    const [scaleA = 0, scaleB = 0] = [scale[first], scale[second]];
    steps.roots(values, from, count, scaleA, footAt(first), scaleB, footAt(second), at + inside);
    mirrorRow(plane, at, readWidth, inside, insideEnd, left, widthPx);
  };
  let nextRow = Number.NaN;
  return (rowStart, rowEnd) => {
    const areFilled = rowStart === nextRow;
    const from = areFilled ? rowStart : rowStart - 2 * ringMargin;
    for (let row = from; row < rowEnd; row++) {
      // A step begins once the rows it needs are there.
      const age = areFilled ? 2 * ringMargin : row - from;
      bring(row + ahead.root);
      if (age >= 4) steps.differences(row + ahead.differences, colourColumn(row + ahead.differences));
      if (age >= 6) steps.unrest(row + ahead.unrest);
      if (age >= 12) steps.blend(row + ahead.blend, colourColumn(row + ahead.blend));
      if (age >= 18) steps.cross(row + ahead.cross, colourColumn(row + ahead.cross));
      if (row < rowStart) continue;
      const first = colourColumn(row);
      steps.colours(row, first, filterAt(row, first), (row - rowStart) * window.widthPx);
    }
    nextRow = rowEnd;
  };
}
