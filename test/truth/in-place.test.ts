import { expect, test } from 'vitest';
import type { Mosaic, PlaceReading } from '../../src/facts/index.ts';
import { placeOfMosaic, readInPlace } from '../../src/judge/index.ts';
import { blackLevels, whiteLevel } from '../../src/stand-in/core/camera-model.ts';
import { exposeFrame, type Rendering } from '../../src/stand-in/core/exposure.ts';
import type { FrameRecipe } from '../../src/stand-in/core/frame-plan.ts';
import { frameSize } from '../../src/stand-in/core/frame-size.ts';
import { frameTruth } from '../../src/stand-in/core/frame-truth.ts';
import { prepareScene, renderRegion } from '../../src/stand-in/core/render-region.ts';
import { variantOf } from '../../src/stand-in/core/set-variant.ts';

/**
 * The virtual set with its ware, its paper and its clutter, photographed as raws with the sensor's noise. Truth is the
 * stand-in's own geometry, which knows nothing of readings.
 */
const size = frameSize(0.35);
const right: FrameRecipe = {
  shot: 'mug',
  purpose: 'picture',
  exposureEv: 0,
  offsetPx: [0, 0],
  addedSigmaPx: 0,
  noiseSeed: 3,
  noise: true,
  faults: [],
};

function render(recipe: FrameRecipe): Rendering {
  const region = {
    left: 0,
    top: 0,
    widthPx: size.widthPx + 2 * size.marginPx,
    heightPx: size.heightPx + 2 * size.marginPx,
  };
  const scene = prepareScene(recipe.shot, recipe.purpose, size, variantOf(recipe, size));
  return { codes: renderRegion(scene, region), size };
}

const mosaicOf = (rendering: Rendering, recipe: FrameRecipe): Mosaic => ({
  values: exposeFrame(rendering, recipe),
  widthPx: size.widthPx,
  heightPx: size.heightPx,
  filters: [0, 1, 1, 2],
  blackLevels,
  whiteLevel,
  asShotMultipliers: [1, 1, 1],
  xyzToCamera: null,
  orientation: 1,
  baselineExposureEv: 0.42,
});

const rightRendering = render(right);
const reference = { plane: placeOfMosaic(mosaicOf(rightRendering, right)), region: null };

function shiftOf({ shift }: PlaceReading): { readonly rightPx: number; readonly downPx: number } {
  if (shift === null || 'unknown' in shift) throw new Error(`not told: ${shift?.unknown}`);
  return shift;
}

test.each([
  [[0.4, -0.7], 0],
  [[-2.3, 1.6], -2],
  [[1.5, 2.25], 1],
] as const)('the camera moved by %j px at %d EV: within half a pixel', (offsetPx, exposureEv) => {
  const recipe = { ...right, offsetPx, exposureEv, noiseSeed: 77 };
  const found = shiftOf(readInPlace(placeOfMosaic(mosaicOf(rightRendering, recipe)), reference));
  const [x, y] = frameTruth(recipe, size).offsetPx;
  expect(Math.hypot(found.rightPx - x, found.downPx - y)).toBeLessThan(0.5);
});

test('ware that was moved on the set is told, while the set stays', () => {
  const recipe: FrameRecipe = { ...right, noiseSeed: 5, faults: [{ name: 'shift', value: 6 }] };
  const truth = frameTruth(recipe, size).subject;
  const [left = 0, top = 0, end = 0, bottom = 0] = frameTruth(right, size).subject?.boxPx ?? [];
  const region = {
    left: left / size.widthPx,
    top: top / size.heightPx,
    right: end / size.widthPx,
    bottom: bottom / size.heightPx,
  };
  const frame = placeOfMosaic(mosaicOf(render(recipe), recipe));
  const found = shiftOf(readInPlace(frame, { ...reference, region }));
  // Ware nearer to the camera than where it looks moves a little more, and its light changes with its place.
  expect(Math.abs(found.rightPx - (truth?.shiftPx[0] ?? 0))).toBeLessThan(0.5);
  expect(Math.abs(found.downPx)).toBeLessThan(0.5);
});
