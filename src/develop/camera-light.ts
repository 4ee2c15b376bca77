import type { Mosaic } from '../facts/index.ts';
import type { Region } from '../image/index.ts';
import { halfPlaneSamples } from './half-planes.ts';
import { balanceRows } from './kernels/balance-rows.ts';
import { type BinPlan, binNumbers } from './plan.ts';
import type { FramePlan } from './plan-frame.ts';
import type { CameraKernels, CameraWork } from './strip-kernels.ts';
import { stripRows } from './strips.ts';

/** Brings rows `rowStart` … `rowEnd - 1` as balanced camera RGB into the kernels' strip; at most `stripRows` of them. */
export type FillStrip = (rowStart: number, rowEnd: number) => void;

/** Balanced camera RGB of a frame, as the sensor lies; highlights are as the sensor left them. */
export function cameraLight(
  mosaic: Mosaic,
  plan: BinPlan,
  frame: FramePlan,
  kernels: CameraKernels,
): FillStrip {
  return frame.from === 'half' ? kernels.half : demosaicedRows(mosaic, plan, frame.window, kernels);
}

/** What the kernels must know to bring a frame's camera light. */
export function cameraWork(mosaic: Mosaic, bin: BinPlan, { from, window }: FramePlan): CameraWork {
  const { widthPx } = window;
  const rows = stripRows(window);
  const isHalf = from === 'half';
  return {
    mosaic,
    bin,
    isHalf,
    pixelsMax: rows * widthPx,
    planeSamples: isHalf ? 4 * halfPlaneSamples(widthPx, rows) : (widthPx + 2 * margin) * (rows + 2 * margin),
  };
}

/** How far demosaicing looks on each side. */
const margin = 2;

/** Rows that follow each other share a margin: only what the plane does not hold yet is balanced. */
function demosaicedRows(
  { values, widthPx, heightPx, filters }: Mosaic,
  plan: BinPlan,
  window: Region,
  { plane, demosaic }: CameraKernels,
): FillStrip {
  const numbers = binNumbers(plan);
  const left = window.leftPx - margin;
  const stride = window.widthPx + 2 * margin;
  /** The plane holds rows heldEnd - heldRows … heldEnd - 1 of the mosaic, counted from the window's top. */
  let heldEnd = Number.NaN;
  let heldRows = 0;
  return (rowStart, rowEnd) => {
    const rows = rowEnd - rowStart + 2 * margin;
    const shared = rowStart + margin === heldEnd ? 2 * margin : 0;
    if (shared > 0) plane.copyWithin(0, (heldRows - shared) * stride, heldRows * stride);
    const top = window.topPx + rowStart - margin + shared;
    const rest = plane.subarray(shared * stride);
    balanceRows(values, widthPx, heightPx, left, top, stride, rows - shared, numbers, rest);
    heldEnd = rowEnd + margin;
    heldRows = rows;
    demosaic(window.widthPx, rowEnd - rowStart, filtersFrom(filters, window.topPx + rowStart, window.leftPx));
  };
}

/** Filters of the 2x2 block whose corner lies at (row, column). */
function filtersFrom(filters: Mosaic['filters'], row: number, column: number): Uint8Array {
  return Uint8Array.from([0, 1, 2, 3], (position) => {
    const y = (row + (position >> 1)) & 1;
    const x = (column + position) & 1;
    return filters[y * 2 + x] ?? 1;
  });
}
