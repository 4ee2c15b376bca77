import {
  diagonalMatrix,
  identityMatrix,
  type Matrix3,
  multiplyMatrices,
  rgbSpaces,
  type Vector3,
} from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { Size } from '../image/index.ts';
import { type CompiledLook, workingLuminance } from '../look/index.ts';
import { cameraLight, cameraWork } from './camera-light.ts';
import { encodeTable } from './encode-table.ts';
import { rebuildOf } from './highlight-hints.ts';
import { plainKernels } from './plain-kernels.ts';
import { type DevelopPlan, workingToSpace } from './plan.ts';
import type { FramePlan } from './plan-frame.ts';
import { balancedToScene } from './scene-scale.ts';
import { simdKernels } from './simd/simd-kernels.ts';
import type { LightPlan, StripKernels, StripWork } from './strip-kernels.ts';

/** Display-linear light within 0 … 1 that comes strip by strip into `kernels.strip`. */
export interface DisplayLight extends Size {
  readonly kernels: StripKernels;
  readonly fill: (rowStart: number, rowEnd: number) => void;
}

/** What display light is in: sRGB's primaries, or the working space's. */
export type LightSpace = 'srgb' | 'working';

/**
 * The light of a mosaic with its look, as the sensor lies: in sRGB, fitted into it, for a screen; or in the working space
 * (linear Rec.2020), for an output space that is fitted into later.
 */
export function displayLight(
  mosaic: Mosaic,
  { bin, toWorking }: DevelopPlan,
  frame: FramePlan,
  look: CompiledLook,
  space: LightSpace,
): DisplayLight {
  const { widthPx, heightPx } = frame.window;
  const kernels = stripKernels({
    ...cameraWork(mosaic, bin, frame),
    light: lightPlan(mosaic, toWorking, look, space),
    table: srgbTable,
  });
  const fill = cameraLight(mosaic, bin, frame, kernels, rebuildOf(kernels, mosaic, bin));
  return {
    widthPx,
    heightPx,
    kernels,
    fill: (rowStart, rowEnd) => {
      const pixels = (rowEnd - rowStart) * widthPx;
      fill(rowStart, rowEnd);
      kernels.light(pixels);
    },
  };
}

export const srgbTable: Uint8Array = encodeTable(rgbSpaces.srgb);

/** SIMD where the machine has it, else TypeScript: the pictures differ by one code here and there. */
export function stripKernels(work: StripWork): StripKernels {
  return simdKernels(work) ?? plainKernels(work);
}

/** The way from balanced camera light to display light of a space. */
export function lightPlan(
  mosaic: Mosaic,
  toWorking: Matrix3,
  look: CompiledLook,
  space: LightSpace,
): LightPlan {
  const gain = balancedToScene(mosaic.baselineExposureEv);
  return {
    toScene: multiplyMatrices(look.matrix, multiplyMatrices(diagonalMatrix([gain, gain, gain]), toWorking)),
    curve: look.curve,
    lookTable: look.table,
    toOutput: space === 'srgb' ? workingToSpace('srgb') : identityMatrix,
    luminance: luminanceOf(space),
  };
}

const [, , , luminanceR, luminanceG, luminanceB] = rgbSpaces.srgb.toXyz;
const srgbLuminance: Vector3 = [luminanceR, luminanceG, luminanceB];

/** Of the channels of a space. */
export function luminanceOf(space: LightSpace): Vector3 {
  return space === 'srgb' ? srgbLuminance : workingLuminance;
}
