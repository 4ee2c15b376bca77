import fc from 'fast-check';
import { expect, test } from 'vitest';
import { linearRgbToRgb, multiplyMatrices, rgbSpaces, type Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { compileLook, defaultLook, neutralLook } from '../look/index.ts';
import { encodeTable } from './encode-table.ts';
import { encodeSamples8, encodeSamples16, multiplyPixels } from './kernels/encode-samples.ts';
import { renderLight } from './kernels/render-light.ts';
import { planDevelop } from './plan.ts';
import { binBlock, clipHighlights, rebuildHighlights, renderPixel } from './reference.ts';
import { forEachStrip } from './strips.ts';

const patterns = [
  [0, 1, 1, 2],
  [2, 1, 1, 0],
  [1, 0, 2, 1],
  [1, 2, 0, 1],
] as const;

const mosaics = fc
  .record({
    widthPx: fc.integer({ min: 2, max: 41 }),
    heightPx: fc.integer({ min: 2, max: 41 }),
    filters: fc.constantFrom(...patterns),
    black: fc.tuple(fc.nat(600), fc.nat(600), fc.nat(600), fc.nat(600)),
    red: fc.double({ min: 0.4, max: 3, noNaN: true }),
    blue: fc.double({ min: 0.4, max: 3, noNaN: true }),
    seed: fc.nat(),
  })
  .map(({ widthPx, heightPx, filters, black, red, blue, seed }): Mosaic => {
    let state = seed;
    const values = Uint16Array.from({ length: widthPx * heightPx }, () => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      // A third at or near saturation, so that every branch of the highlights is taken.
      return state % 3 === 0 ? 14_000 + (state >>> 20) / 2 : state >>> 18;
    });
    return {
      values,
      widthPx,
      heightPx,
      filters,
      blackLevels: black,
      whiteLevel: 15_800,
      asShotMultipliers: [red, 1, blue],
      xyzToCamera: null,
      orientation: 1,
      baselineExposureEv: 0,
    };
  });

test.each(['rebuild', 'clip'] as const)(
  'binning with highlights "%s" agrees with the reference on any mosaic',
  (highlights) => {
    fc.assert(
      fc.property(mosaics, (mosaic) => {
        const { bin } = planDevelop(mosaic);
        forEachStrip(mosaic, bin, highlights, (strip, rowStart, rowEnd) => {
          const width = mosaic.widthPx >> 1;
          for (let row = rowStart; row < rowEnd; row++) {
            for (let column = 0; column < width; column++) {
              const block = binBlock(mosaic, bin, row, column);
              const expected =
                highlights === 'rebuild' ? rebuildHighlights(block, bin.saturation) : clipHighlights(block);
              expected.forEach((value, channel) => {
                const actual = strip[((row - rowStart) * width + column) * 3 + channel] ?? Number.NaN;
                // 32-bit floats carry 7 digits.
                expect(Math.abs(actual - value)).toBeLessThan(2e-6 * Math.max(1, value));
              });
            }
          }
        });
      }),
    );
  },
);

const light = fc.double({ min: -0.3, max: 4, noNaN: true });
const toOutput = linearRgbToRgb(rgbSpaces.rec2020, rgbSpaces.srgb);
const [, , , lumaR, lumaG, lumaB] = rgbSpaces.srgb.toXyz;
const luminance: Vector3 = [lumaR, lumaG, lumaB];
const toScene = multiplyMatrices(
  [1.3, 0, 0, 0, 1.3, 0, 0, 0, 1.3],
  [1.4, -0.3, -0.1, -0.1, 1.3, -0.2, 0, -0.4, 1.4],
);

test.each([
  ['the default look', compileLook(defaultLook).curve],
  ['no curve', compileLook(neutralLook).curve],
] as const)('rendering light with %s agrees with the reference on any colour', (_, curve) => {
  fc.assert(
    fc.property(fc.tuple(light, light, light), (rgb) => {
      const pixel = Float32Array.from(rgb);
      const [r = 0, g = 0, b = 0] = pixel;
      const expected = renderPixel([r, g, b], toScene, curve, toOutput, luminance);
      renderLight(
        pixel,
        1,
        Float64Array.from(toScene),
        curve?.samples ?? new Float32Array(0),
        curve?.sceneWhite ?? 1,
        curve?.slopeAtBlack ?? 1,
        Float64Array.from(toOutput),
        Float64Array.from(luminance),
      );
      expected.forEach((value, channel) => {
        expect(pixel[channel]).toBeCloseTo(value, 6);
      });
    }),
  );
});

test('every byte is at most one code from exact rounding, and exact for all but a few in a thousand (decision 19)', () => {
  const { encode } = rgbSpaces.srgb.transfer;
  const count = 100_001;
  const linear = Float32Array.from({ length: count }, (_, index) => index / (count - 1));
  const bytes = new Uint8Array(count);
  encodeSamples8(linear, count, encodeTable(rgbSpaces.srgb), bytes, 0);
  let off = 0;
  for (let index = 0; index < count; index++) {
    const difference = Math.abs((bytes[index] ?? 0) - Math.round(255 * encode(linear[index] ?? 0)));
    expect(difference).toBeLessThanOrEqual(1);
    off += difference;
  }
  expect(off / count).toBeLessThan(0.003);
});

test('samples outside 0 … 1 are held at the ends, and what is not a number is black', () => {
  const linear = Float32Array.of(-1, 0, 1, 7, Number.NaN, Number.POSITIVE_INFINITY);
  const bytes = new Uint8Array(6);
  const words = new Uint16Array(6);
  encodeSamples8(linear, 6, encodeTable(rgbSpaces.srgb), bytes, 0);
  encodeSamples16(linear, 6, words, 0);
  expect([...bytes]).toEqual([0, 0, 255, 255, 0, 255]);
  expect([...words]).toEqual([0, 0, 65_535, 65_535, 0, 65_535]);
});

test('a matrix is applied to whole pixels only', () => {
  const rgb = Float32Array.of(1, 2, 3, 4, 5, 6);
  multiplyPixels(rgb, 1, Float64Array.of(0, 0, 1, 0, 1, 0, 1, 0, 0));
  expect([...rgb]).toEqual([3, 2, 1, 4, 5, 6]);
});
