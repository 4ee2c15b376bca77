/** From a noise-free rendering to the values of a sensor. */
import {
  baselineExposureEv,
  blackLevels,
  electronsPerStep,
  readNoiseSteps,
  rec2020ToXyz,
  settings,
  whiteLevel,
  xyzToCamera,
} from './camera-model.ts';
import { type PictureFacts, pictureFacts } from './frame-faults.ts';
import type { FrameRecipe } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { greyCardCodes, slatePlace, withSlate } from './held-card.ts';
import { addHotPixels } from './hot-pixels.ts';
import { exposeRows } from './kernels/expose-rows.ts';
import { relightMatrix } from './light-white.ts';
import { multiply3 } from './matrix3.ts';
import { filterWeights, type LineTaps, lineTaps } from './optics.ts';
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
  const { size } = rendering;
  const codes = codesWithHeld(rendering, recipe);
  const [shiftX, shiftY] = recipe.offsetPx;
  const wholeX = Math.round(shiftX);
  const wholeY = Math.round(shiftY);
  const facts = pictureFacts(recipe);
  const taps = facts.shake === null ? still : lineTaps(facts.shake.lengthPx, facts.shake.angleDegrees);
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
      weightsX: filterWeights(wholeX - shiftX, facts.addedSigmaPx),
      weightsY: filterWeights(wholeY - shiftY, facts.addedSigmaPx),
      tapX: taps.dx,
      tapY: taps.dy,
      shareOfTap: taps.share,
      toSteps: Float32Array.from(sceneToSteps(facts)),
      blackLevels,
      whiteLevel,
      // A step of the raw value stands for fewer electrons at a higher sensitivity.
      electronsPerStep: (electronsPerStep * settings.sensitivity) / facts.sensitivity,
      readNoiseSteps: (readNoiseSteps * facts.sensitivity) / settings.sensitivity,
      seed: recipe.noiseSeed,
      noise: recipe.noise ? 1 : 0,
    },
    mosaic,
  );
  if (recipe.noise) addHotPixels(mosaic, size);
  return mosaic;
}

/** The set as it is rendered, with what somebody holds in front of it. */
function codesWithHeld({ codes, size }: Rendering, recipe: FrameRecipe): Uint16Array {
  switch (recipe.held?.kind) {
    case undefined:
      return codes;
    case 'slate':
      return withSlate(codes, size, recipe.held.text, slatePlace(recipe, size));
    case 'grey-card':
      return greyCardCodes(size);
  }
}

const still: LineTaps = { dx: new Int16Array(0), dy: new Int16Array(0), share: new Float32Array(0) };

/**
 * Linear Rec.2020 scene values to raw steps above black: in the set's own light the green of a perfect diffuser stops
 * 0.42 EV below saturation.
 */
export function sceneToSteps({
  exposureEv,
  whiteXy,
}: Pick<PictureFacts, 'exposureEv' | 'whiteXy'>): number[] {
  const scale = (whiteLevel - Math.max(...blackLevels)) * 2 ** (exposureEv - baselineExposureEv);
  const toCamera = multiply3(xyzToCamera, rec2020ToXyz);
  const greenOfWhite = toCamera.slice(3, 6).reduce((sum, value) => sum + value, 0);
  const relit = multiply3(xyzToCamera, multiply3(relightMatrix(whiteXy), rec2020ToXyz));
  return relit.map((value) => (value * scale) / greenOfWhite);
}
