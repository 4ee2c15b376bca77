import { renderLight } from '../look/kernels/render-light.ts';
import { plainDemosaicSteps } from './demosaic-steps.ts';
import { halfPlaneSamples, planeOrder } from './half-planes.ts';
import { encodeSamples8 } from './kernels/encode-samples.ts';
import { halfRows, splitRows } from './kernels/half-rows.ts';
import { rebuildStrip } from './kernels/rebuild-highlights.ts';
import { binNumbers } from './plan.ts';
import type { CameraKernels, CameraWork, LightPlan, StripKernels, StripWork } from './strip-kernels.ts';
import { type LightRun, runsAroundTable, tableStep } from './table-light.ts';

/** The way to camera light in TypeScript. */
export function plainCameraKernels(work: CameraWork): CameraKernels {
  const { mosaic, bin } = work;
  const { values, widthPx, heightPx } = mosaic;
  const strip = new Float32Array(work.pixelsMax * 3);
  const plane = new Float32Array(work.planeSamples);
  const numbers = binNumbers(bin);
  const order = Uint8Array.from(planeOrder(bin));
  const saturation = Float64Array.from(bin.saturation);
  return {
    strip,
    plane,
    half: (rowStart, rowEnd) => {
      const rows = rowEnd - rowStart;
      const length = halfPlaneSamples(widthPx >> 1, rows);
      splitRows(values, widthPx, heightPx, rowStart - 2, rows + 4, numbers, order, plane, length);
      halfRows(plane, length, widthPx >> 1, rows, bin.redPosition, saturation, strip);
    },
    demosaic: plainDemosaicSteps(plane, work.widthPx, saturation, strip),
  };
}

/** All kernels in TypeScript. */
export function plainKernels(work: StripWork): StripKernels {
  const { bin, table, light } = work;
  const camera = plainCameraKernels(work);
  const { strip } = camera;
  const saturation = Float64Array.from(bin.saturation);
  return {
    ...camera,
    rebuild: (pixels) => rebuildStrip(strip, pixels, saturation),
    light: lightStep(strip, light),
    encode: (pixels, out, outOffset) => encodeSamples8(strip, pixels * 3, table, out, outOffset),
  };
}

function lightStep(strip: Float32Array, light: LightPlan): (pixels: number) => void {
  if (light.lookTable === null) return lightRun(strip, light);
  const [before, behind] = runsAroundTable(light);
  const toDisplay = lightRun(strip, before);
  const throughTable = tableStep(light.lookTable);
  const toOutput = lightRun(strip, behind);
  return (pixels) => {
    toDisplay(pixels);
    throughTable(strip, pixels);
    toOutput(pixels);
  };
}

function lightRun(strip: Float32Array, run: LightRun): (pixels: number) => void {
  const toScene = Float64Array.from(run.toScene);
  const toOutput = Float64Array.from(run.toOutput);
  const luminance = Float64Array.from(run.luminance);
  const { samples, sceneWhite, slopeAtBlack } = run.curve ?? noCurve;
  return (pixels) =>
    renderLight(strip, pixels, toScene, samples, sceneWhite, slopeAtBlack, toOutput, luminance);
}

const noCurve = { samples: new Float32Array(0), sceneWhite: 1, slopeAtBlack: 1 };
