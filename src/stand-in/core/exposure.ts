/** From a noise-free rendering to the values of a sensor. */
import {
  baselineExposureEv,
  blackLevels,
  electronsPerStep,
  readNoiseSteps,
  rec2020ToXyz,
  whiteLevel,
  xyzToCamera,
} from './camera-model.ts';
import type { FrameRecipe } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { exposeRows } from './kernels/expose-rows.ts';
import { multiply3 } from './matrix3.ts';
import { filterWeights } from './optics.ts';
import { sceneDecodeTable } from './scene-code.ts';

/** A rendering with a margin around the frame, so that the set may stand a little elsewhere in the next frame. */
export interface Rendering {
  /** `codes[(row * baseWidthPx + column) * 3 + channel]`, see `scene-code.ts`; linear Rec.2020, light D65. */
  readonly codes: Uint16Array;
  readonly size: FrameSize;
}

/**
 * The mosaic of one frame: RGGB, `size.widthPx * size.heightPx` values, black level not subtracted. The same recipe
 * gives the same values. An offset beyond the margin repeats the rendering's edge.
 */
export function exposeFrame(rendering: Rendering, recipe: FrameRecipe): Uint16Array<ArrayBuffer> {
  const { size, codes } = rendering;
  const [shiftX, shiftY] = recipe.offsetPx;
  const wholeX = Math.round(shiftX);
  const wholeY = Math.round(shiftY);
  const mosaic = new Uint16Array(size.widthPx * size.heightPx);
  exposeRows(
    {
      codes,
      decode: sceneDecodeTable(),
      baseWidthPx: size.widthPx + 2 * size.marginPx,
      baseHeightPx: size.heightPx + 2 * size.marginPx,
      left: size.marginPx - wholeX,
      top: size.marginPx - wholeY,
      widthPx: size.widthPx,
      heightPx: size.heightPx,
      weightsX: filterWeights(wholeX - shiftX, recipe.addedSigmaPx),
      weightsY: filterWeights(wholeY - shiftY, recipe.addedSigmaPx),
      toSteps: Float32Array.from(sceneToSteps(recipe.exposureEv)),
      blackLevels,
      whiteLevel,
      electronsPerStep,
      readNoiseSteps,
      seed: recipe.noiseSeed,
      noise: recipe.noise ? 1 : 0,
    },
    mosaic,
  );
  return mosaic;
}

/** Linear Rec.2020 scene values to raw steps above black: the green of a perfect diffuser stops 0.42 EV below saturation. */
export function sceneToSteps(exposureEv: number): number[] {
  const scale = (whiteLevel - Math.max(...blackLevels)) * 2 ** (exposureEv - baselineExposureEv);
  const greenOfWhite = multiply3(xyzToCamera, rec2020ToXyz)
    .slice(3, 6)
    .reduce((sum, value) => sum + value, 0);
  return multiply3(xyzToCamera, rec2020ToXyz).map((value) => (value * scale) / greenOfWhite);
}
