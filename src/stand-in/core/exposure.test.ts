import { expect, test } from 'vitest';
import { blackLevels, electronsPerStep, readNoiseSteps, whiteLevel } from './camera-model.ts';
import { exposeFrame, type Rendering } from './exposure.ts';
import type { FrameRecipe } from './frame-plan.ts';
import { frameSize } from './frame-size.ts';
import { sceneCode } from './scene-code.ts';

const recipe: FrameRecipe = {
  shot: 'mug',
  purpose: 'picture',
  exposureEv: 0,
  offsetPx: [0, 0],
  addedSigmaPx: 0,
  noiseSeed: 3,
  noise: true,
  faults: [],
};

/** A frame of one grey, or of what `value` says at each pixel of the rendering. */
function flat(value: (column: number, row: number) => number): Rendering {
  const size = frameSize(0.05);
  const wide = size.widthPx + 2 * size.marginPx;
  const high = size.heightPx + 2 * size.marginPx;
  const codes = Uint16Array.from({ length: wide * high * 3 }, (_, k) =>
    sceneCode(value(Math.floor(k / 3) % wide, Math.floor(k / 3 / wide))),
  );
  return { codes, size };
}

const greens = (mosaic: Uint16Array, widthPx: number): number[] =>
  [...mosaic].filter((_, k) => Math.floor(k / widthPx) % 2 === 0 && k % 2 === 1);

test('noise is Poisson in electrons plus reading: variance in steps = signal / gain + read noise squared', () => {
  const rendering = flat(() => 0.18);
  const values = greens(exposeFrame(rendering, recipe), rendering.size.widthPx);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
  const signal = mean - blackLevels[1];
  // Rounding to whole steps adds 1/12. 12,000 samples: the variance is known to 1.3 %, so 5 % is four sigma.
  const expected = signal / electronsPerStep + readNoiseSteps ** 2 + 1 / 12;
  expect(Math.abs(variance / expected - 1)).toBeLessThan(0.05);
});

/** Twenty times the read noise above black: no pixel comes there by chance. */
const hot = 530 + 20 * readNoiseSteps;

test('two pixels are hot, at the same places in every frame', () => {
  const rendering = flat(() => 0);
  const places = [3, 4].map((noiseSeed) =>
    [...exposeFrame(rendering, { ...recipe, noiseSeed })].flatMap((value, k) => (value > hot ? [k] : [])),
  );
  expect(places[0]).toHaveLength(2);
  expect(places[1]).toEqual(places[0]);
});

test('without light there is the black level of each place, and reading noise about it on both sides', () => {
  const rendering = flat(() => 0);
  const { widthPx } = rendering.size;
  const mosaic = exposeFrame(rendering, recipe);
  blackLevels.forEach((black, place) => {
    const values = [...mosaic].filter(
      (value, k) => (Math.floor(k / widthPx) % 2) * 2 + (k % 2) === place && value < hot,
    );
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean).toBeCloseTo(black, 1);
    expect(Math.min(...values)).toBeLessThan(black);
  });
});

test('a perfect diffuser leaves 0.42 EV in green, and twice that light saturates (DNG BaselineExposure)', () => {
  const size = frameSize(0.05);
  const share = (value: number): number => {
    const mosaic = exposeFrame(
      flat(() => value),
      { ...recipe, noise: false },
    );
    return ((greens(mosaic, size.widthPx)[0] ?? 0) - blackLevels[1]) / (whiteLevel - blackLevels[1]);
  };
  expect(share(1)).toBeCloseTo(2 ** -0.42, 3);
  expect(share(2)).toBe(1);
});

test('an offset of whole pixels moves the picture right and down and changes no value', () => {
  const rendering = flat((column, row) => 0.1 + 0.001 * ((column * 7 + row * 13) % 97));
  const { widthPx } = rendering.size;
  const still = exposeFrame(rendering, { ...recipe, noise: false });
  const moved = exposeFrame(rendering, { ...recipe, noise: false, offsetPx: [2, 4] });
  for (const [x, y] of [
    [10, 10],
    [51, 30],
    [100, 77],
  ] as const) {
    expect(moved[(y + 4) * widthPx + x + 2]).toBe(still[y * widthPx + x]);
  }
});

test('the same recipe gives the same values, another seed others', () => {
  const rendering = flat(() => 0.3);
  const once = exposeFrame(rendering, recipe);
  expect(exposeFrame(rendering, recipe)).toEqual(once);
  expect(exposeFrame(rendering, { ...recipe, noiseSeed: 4 })).not.toEqual(once);
});
