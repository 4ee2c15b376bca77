import type { Mosaic } from '../facts/index.ts';
import { demosaicedRows, demosaicSamples } from './demosaic-steps.ts';
import { halfPlaneSamples } from './half-planes.ts';
import type { BinPlan } from './plan.ts';
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
  return frame.from === 'half'
    ? kernels.half
    : demosaicedRows(mosaic, plan, frame.window, kernels.plane, kernels.demosaic);
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
    planeSamples: isHalf ? 4 * halfPlaneSamples(widthPx, rows) : demosaicSamples(widthPx),
    widthPx,
  };
}
