import { diagonalMatrix, type Matrix3, multiplyMatrices, rgbSpaces } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { areaReducer, type Rgb8, type Size, turnUpright } from '../image/index.ts';
import type { CompiledLook } from '../look/index.ts';
import { cameraLight, cameraWork } from './camera-light.ts';
import { encodeTable } from './encode-table.ts';
import { encodeSamples8 } from './kernels/encode-samples.ts';
import { plainKernels } from './plain-kernels.ts';
import { type DevelopPlan, planDevelop, workingToSpace } from './plan.ts';
import { type FramePlan, planFrame, type RenderSize } from './plan-frame.ts';
import { balancedToScene } from './scene-scale.ts';
import { simdKernels } from './simd/simd-kernels.ts';
import type { LightPlan, StripKernels, StripWork } from './strip-kernels.ts';
import { forEachStrip } from './strips.ts';

export interface Rendered {
  /** Upright, encoded sRGB. */
  readonly picture: Rgb8;
  /** Assumptions that had to be made: codes `develop.*`. */
  readonly issues: readonly Finding[];
}

const srgbTable = encodeTable(rgbSpaces.srgb);

/**
 * The picture of a mosaic with its look: sRGB, 8 bits, upright. Smaller sizes are reduced by area averaging in linear
 * display light. The mosaic is read, not kept. Rounded to the nearest, no dithering.
 * Errors: `raw-too-large`, `region-outside`, `raw-unsupported-mosaic`.
 */
export function renderMosaic(mosaic: Mosaic, look: CompiledLook, size: RenderSize): Rendered {
  const plan = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const strips = displayLight(mosaic, plan, frame, look);
  const { target } = frame;
  const isReduced = target.widthPx !== frame.window.widthPx || target.heightPx !== frame.window.heightPx;
  const data = isReduced ? reduceStrips(strips, target) : encodeStrips(strips);
  const stored: Rgb8 = { data, ...target, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues: plan.issues };
}

/** Display-linear light of the output space that comes strip by strip into `kernels.strip`. */
interface DisplayLight extends Size {
  readonly kernels: StripKernels;
  readonly fill: (rowStart: number, rowEnd: number) => void;
}

function displayLight(
  mosaic: Mosaic,
  { bin, toWorking }: DevelopPlan,
  frame: FramePlan,
  look: CompiledLook,
): DisplayLight {
  const { widthPx, heightPx } = frame.window;
  const kernels = stripKernels({
    ...cameraWork(mosaic, bin, frame),
    light: lightPlan(mosaic, toWorking, look),
    table: srgbTable,
  });
  const fill = cameraLight(mosaic, bin, frame, kernels);
  return {
    widthPx,
    heightPx,
    kernels,
    fill: (rowStart, rowEnd) => {
      const pixels = (rowEnd - rowStart) * widthPx;
      fill(rowStart, rowEnd);
      kernels.rebuild(pixels);
      kernels.light(pixels);
    },
  };
}

/** SIMD where the machine has it, else TypeScript: the pictures differ by one code here and there. */
function stripKernels(work: StripWork): StripKernels {
  return simdKernels(work) ?? plainKernels(work);
}

function encodeStrips(light: DisplayLight): Uint8Array {
  const { widthPx, heightPx, kernels, fill } = light;
  const bytes = new Uint8Array(widthPx * heightPx * 3);
  forEachStrip(light, (rowStart, rowEnd) => {
    fill(rowStart, rowEnd);
    kernels.encode((rowEnd - rowStart) * widthPx, bytes, rowStart * widthPx * 3);
  });
  return bytes;
}

function reduceStrips(light: DisplayLight, target: Size): Uint8Array {
  const bytes = new Uint8Array(target.widthPx * target.heightPx * 3);
  const reduce = areaReducer(light, target, (line, row) => {
    encodeSamples8(line, line.length, srgbTable, bytes, row * line.length);
  });
  forEachStrip(light, (rowStart, rowEnd) => {
    light.fill(rowStart, rowEnd);
    reduce(light.kernels.strip, rowEnd - rowStart);
  });
  return bytes;
}

function lightPlan(mosaic: Mosaic, toWorking: Matrix3, look: CompiledLook): LightPlan {
  const gain = balancedToScene(mosaic.baselineExposureEv) * look.gain;
  const [, , , luminanceR, luminanceG, luminanceB] = rgbSpaces.srgb.toXyz;
  return {
    toScene: multiplyMatrices(diagonalMatrix([gain, gain, gain]), toWorking),
    curve: look.curve,
    toOutput: workingToSpace('srgb'),
    luminance: [luminanceR, luminanceG, luminanceB],
  };
}
