import { diagonalMatrix, identityMatrix, multiplyMatrices } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { areaReducer, type RgbFloat, turnUpright } from '../image/index.ts';
import { workingLuminance } from '../look/index.ts';
import { cameraLight, cameraWork } from './camera-light.ts';
import { rebuildOf } from './highlight-hints.ts';
import { multiplyPixels } from './kernels/encode-samples.ts';
import { plainKernels } from './plain-kernels.ts';
import { planDevelop } from './plan.ts';
import { planFrame, type RenderSize } from './plan-frame.ts';
import { balancedToScene } from './scene-scale.ts';
import { simdKernels } from './simd/simd-kernels.ts';
import type { StripWork } from './strip-kernels.ts';
import { forEachStrip } from './strips.ts';

export interface Scene {
  /** Upright, scene-linear Rec. 2020, balanced, 1 = white diffuse surface; values may leave 0 … 1 on both sides. */
  readonly picture: RgbFloat;
  readonly issues: readonly Finding[];
}

/**
 * The light that a look is applied to: what `renderMosaic` has in hand between highlights and look. Smaller sizes are
 * averaged in scene light, where a rendering averages behind the look: at edges of great contrast the two differ.
 * Errors: as `renderMosaic`.
 */
export function sceneMosaic(mosaic: Mosaic, size: RenderSize): Scene {
  const { bin, toWorking, issues } = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const { window, target } = frame;
  const work: StripWork = { ...cameraWork(mosaic, bin, frame), ...noLight };
  const kernels = simdKernels(work) ?? plainKernels(work);
  const fill = cameraLight(mosaic, bin, frame, kernels, rebuildOf(kernels, mosaic, bin));
  const gain = balancedToScene(mosaic.baselineExposureEv);
  const toScene = Float64Array.from(multiplyMatrices(diagonalMatrix([gain, gain, gain]), toWorking));
  const data = new Float32Array(target.widthPx * target.heightPx * 3);
  const reduce = areaReducer(window, target, (line, row) => data.set(line, row * line.length));
  forEachStrip(window, (rowStart, rowEnd) => {
    const pixels = (rowEnd - rowStart) * window.widthPx;
    fill(rowStart, rowEnd);
    multiplyPixels(kernels.strip, pixels, toScene);
    reduce(kernels.strip, rowEnd - rowStart);
  });
  const stored: RgbFloat = { data, ...target, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues };
}

/** The kernels' last two steps are not taken. */
const noLight: Pick<StripWork, 'table' | 'light'> = {
  light: {
    toScene: identityMatrix,
    curve: null,
    lookTable: null,
    toOutput: identityMatrix,
    luminance: workingLuminance,
  },
  table: new Uint8Array(65_536),
};
