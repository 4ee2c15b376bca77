import type { Mosaic, RawLayout } from '../facts/index.ts';
import { demosaicedRows, demosaicSamples } from './demosaic-steps.ts';
import { halfPlaneSamples, halfPlanes } from './half-planes.ts';
import { layoutRows } from './layouts/layout-rows.ts';
import { lensRows } from './lens/lens-rows.ts';
import { sourceWindow } from './lens/source-window.ts';
import type { BinPlan } from './plan.ts';
import { type FramePlan, halfSize } from './plan-frame.ts';
import type { CameraKernels, CameraWork, FillStrip } from './strip-kernels.ts';
import { stripRows } from './strips.ts';

/**
 * Balanced camera RGB of a frame, as the sensor lies, with its lens corrected. `rebuild` tells what is done to strips of
 * the uncorrected picture before that: highlights are as the sensor left them, and are no longer known for lost once a corner
 * was raised. Left out: nothing.
 */
export function cameraLight(
  mosaic: Mosaic,
  plan: BinPlan,
  frame: FramePlan,
  kernels: CameraKernels,
  rebuild: (source: FramePlan) => FillStrip = () => () => undefined,
): FillStrip {
  const source = sourceFrame(mosaic, frame);
  const fill: FillStrip =
    mosaic.layout !== undefined
      ? layoutFill(mosaic, mosaic.layout, plan, source, kernels)
      : source.from === 'half'
        ? kernels.half
        : demosaicedRows(mosaic, plan, source.window, kernels.plane, kernels.demosaic);
  const rebuildStrip = rebuild(source);
  const rebuilt: FillStrip = (rowStart, rowEnd) => {
    fill(rowStart, rowEnd);
    rebuildStrip(rowStart, rowEnd);
  };
  if (mosaic.lens === undefined || mosaic.lens.steps.length === 0) return rebuilt;
  return lensRows(mosaic.lens, frame, { window: source.window, strip: kernels.strip, fill: rebuilt });
}

function layoutFill(
  mosaic: Mosaic,
  layout: RawLayout,
  plan: BinPlan,
  source: FramePlan,
  { strip }: CameraKernels,
): FillStrip {
  const rows = layoutRows(mosaic, layout, plan, source);
  return (rowStart, rowEnd) => rows(rowStart, rowEnd, strip);
}

/** What the kernels must know to bring a frame's camera light. */
export function cameraWork(mosaic: Mosaic, bin: BinPlan, frame: FramePlan): CameraWork {
  const { window } = sourceFrame(mosaic, frame);
  const { widthPx } = window;
  const rows = stripRows(window);
  // Other layouts bring their rows by themselves.
  const isOther = mosaic.layout !== undefined;
  const isHalf = frame.from === 'half' && !isOther;
  return {
    mosaic,
    bin,
    isHalf,
    // The strip takes a frame's own rows as well as those of the source that they are made from.
    pixelsMax: Math.max(rows * widthPx, stripRows(frame.window) * frame.window.widthPx),
    planeSamples: isOther
      ? 0
      : isHalf
        ? halfPlanes * halfPlaneSamples(widthPx, rows)
        : demosaicSamples(widthPx),
    widthPx,
  };
}

/** The part of the uncorrected picture that a frame is made from. */
function sourceFrame(mosaic: Mosaic, frame: FramePlan): FramePlan {
  if (mosaic.lens === undefined || mosaic.lens.steps.length === 0) return frame;
  // Half size comes in whole rows, which are cheap.
  const window =
    frame.from === 'half'
      ? { leftPx: 0, topPx: 0, ...halfSize(mosaic) }
      : sourceWindow(mosaic.lens, frame, mosaic);
  return { ...frame, window };
}
