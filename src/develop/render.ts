import { diagonalMatrix, type Matrix3, multiplyMatrices, rgbSpaces } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { areaReducer, fitLongEdge, type Rgb8, type Size, turnUpright } from '../image/index.ts';
import { activeParts, type CompiledLook } from '../look/index.ts';
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
  /** The same reduced further, for each of `smallerEdgesPx`; never enlarged. */
  readonly smaller: readonly Rgb8[];
  /** Assumptions that had to be made, and parts of the look left out: codes `develop.*`, `look.*`. */
  readonly issues: readonly Finding[];
}

const srgbTable = encodeTable(rgbSpaces.srgb);

/**
 * The picture of a mosaic with its look: sRGB, 8 bits, upright. Smaller sizes are reduced by area averaging in linear
 * display light; those of `smallerEdgesPx` (long edges) on the way, from the same light as the picture itself. The mosaic
 * is read, not kept. Rounded to the nearest, no dithering.
 * Errors: `raw-too-large`, `region-outside`, `raw-unsupported-mosaic`.
 */
export function renderMosaic(
  mosaic: Mosaic,
  look: CompiledLook,
  size: RenderSize,
  smallerEdgesPx: readonly number[] = [],
): Rendered {
  const plan = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const light = displayLight(mosaic, plan, frame, look);
  const targets = [frame.target, ...smallerEdgesPx.map((edgePx) => fitLongEdge(frame.target, edgePx))];
  const takers = targets.map((target) => pictureTaker(light, target));
  forEachStrip(light, (rowStart, rowEnd) => {
    light.fill(rowStart, rowEnd);
    for (const { take } of takers) take(rowStart, rowEnd);
  });
  const [picture, ...smaller] = takers.map((taker) => turnUpright(taker.picture, mosaic.orientation));
  if (picture === undefined) throw new Error('a rendering has a picture');
  return { picture, smaller, issues: [...plan.issues, ...look.findings, ...leftOut(look)] };
}

/** What of a look is not carried out here. */
function leftOut(look: CompiledLook): readonly Finding[] {
  const parts = activeParts(look.local);
  return parts.length === 0 ? [] : [{ code: 'develop.parts-left-out', args: { parts: parts.join(' ') } }];
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

/** A picture as the sensor lies that grows strip by strip; encoding leaves the strip's light as it is. */
interface PictureTaker {
  readonly picture: Rgb8;
  readonly take: (rowStart: number, rowEnd: number) => void;
}

function pictureTaker({ widthPx, heightPx, kernels }: DisplayLight, target: Size): PictureTaker {
  const data = new Uint8Array(target.widthPx * target.heightPx * 3);
  const picture: Rgb8 = { data, ...target, channels: 3 };
  if (target.widthPx === widthPx && target.heightPx === heightPx) {
    const take: PictureTaker['take'] = (rowStart, rowEnd) =>
      kernels.encode((rowEnd - rowStart) * widthPx, data, rowStart * widthPx * 3);
    return { picture, take };
  }
  const reduce = areaReducer({ widthPx, heightPx }, target, (line, row) => {
    encodeSamples8(line, line.length, srgbTable, data, row * line.length);
  });
  return { picture, take: (rowStart, rowEnd) => reduce(kernels.strip, rowEnd - rowStart) };
}

function lightPlan(mosaic: Mosaic, toWorking: Matrix3, look: CompiledLook): LightPlan {
  const gain = balancedToScene(mosaic.baselineExposureEv);
  const [, , , luminanceR, luminanceG, luminanceB] = rgbSpaces.srgb.toXyz;
  return {
    toScene: multiplyMatrices(look.matrix, multiplyMatrices(diagonalMatrix([gain, gain, gain]), toWorking)),
    curve: look.curve,
    lookTable: look.table,
    toOutput: workingToSpace('srgb'),
    luminance: [luminanceR, luminanceG, luminanceB],
  };
}
