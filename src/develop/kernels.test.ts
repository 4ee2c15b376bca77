import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mosaics } from '../../test/render/mosaics.ts';
import { linearRgbToRgb, multiplyMatrices, rgbSpaces, type Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { compileLook, defaultLook, lookSchema, neutralLook } from '../look/index.ts';
import { renderLight } from '../look/kernels/render-light.ts';
import { cameraLight, cameraWork } from './camera-light.ts';
import { demosaicReference } from './demosaic-reference.ts';
import { encodeTable } from './encode-table.ts';
import { halfPixel } from './half-reference.ts';
import { binMosaic } from './kernels/bin-mosaic.ts';
import { encodeSamples8, encodeSamples16, multiplyPixels } from './kernels/encode-samples.ts';
import { clipStrip, rebuildStrip } from './kernels/rebuild-highlights.ts';
import { plainCameraKernels, plainKernels } from './plain-kernels.ts';

import { binNumbers, planDevelop } from './plan.ts';
import { planFrame } from './plan-frame.ts';
import { binBlock, clipHighlights, rebuildHighlights, renderPixel } from './reference.ts';

test.each(['rebuild', 'clip'] as const)(
  'binning with highlights "%s" agrees with the reference on any mosaic',
  (highlights) => {
    fc.assert(
      fc.property(mosaics, (mosaic) => {
        const { bin } = planDevelop(mosaic);
        const frame = planFrame(mosaic, 'half');
        const { widthPx, heightPx } = frame.window;
        const strip = new Float32Array(widthPx * heightPx * 3);
        binMosaic(mosaic.values, mosaic.widthPx, 0, heightPx, binNumbers(bin), strip);
        if (highlights === 'rebuild')
          rebuildStrip(strip, strip.length / 3, Float64Array.from(bin.saturation));
        else clipStrip(strip, strip.length);
        for (let pixel = 0; pixel < widthPx * heightPx; pixel++) {
          const block = binBlock(mosaic, bin, Math.floor(pixel / widthPx), pixel % widthPx);
          const expected =
            highlights === 'rebuild' ? rebuildHighlights(block, bin.saturation) : clipHighlights(block);
          expectPixel(strip, pixel, expected);
        }
      }),
    );
  },
);

/** 32-bit floats carry 7 digits. */
function expectPixel(strip: Float32Array, pixel: number, expected: Vector3): void {
  expected.forEach((value, channel) => {
    const actual = strip[pixel * 3 + channel] ?? Number.NaN;
    expect(Math.abs(actual - value)).toBeLessThan(4e-6 * Math.max(1, Math.abs(value)));
  });
}

test('half size agrees with the reference on any mosaic, in strips of any height', () => {
  fc.assert(
    fc.property(mosaics, fc.integer({ min: 1, max: 7 }), (mosaic, rows) => {
      const { bin } = planDevelop(mosaic);
      const frame = planFrame(mosaic, 'half');
      const { widthPx, heightPx } = frame.window;
      const kernels = plainCameraKernels(cameraWork(mosaic, bin, frame));
      for (let rowStart = 0; rowStart < heightPx; rowStart += rows) {
        const rowEnd = Math.min(heightPx, rowStart + rows);
        kernels.half(rowStart, rowEnd);
        for (let pixel = 0; pixel < (rowEnd - rowStart) * widthPx; pixel++) {
          const row = rowStart + Math.floor(pixel / widthPx);
          expectPixel(kernels.strip, pixel, halfPixel(mosaic, bin, row, pixel % widthPx));
        }
      }
    }),
  );
});

test('demosaicing any window, in strips of any height, agrees with the reference, at the mosaic’s edges too', () => {
  const share = fc.double({ min: 0, max: 0.999, noNaN: true });
  fc.assert(
    fc.property(
      mosaics,
      share,
      share,
      share,
      share,
      fc.integer({ min: 1, max: 7 }),
      (mosaic, x, y, w, h, rows) => {
        fc.pre(Math.min(mosaic.widthPx, mosaic.heightPx) >= 3);
        const { bin } = planDevelop(mosaic);
        const leftPx = Math.floor(x * mosaic.widthPx);
        const topPx = Math.floor(y * mosaic.heightPx);
        const widthPx = 1 + Math.floor(w * (mosaic.widthPx - leftPx));
        const heightPx = 1 + Math.floor(h * (mosaic.heightPx - topPx));
        const reference = demosaicReference(mosaic, bin);
        const frame = planFrame(mosaic, { region: { leftPx, topPx, widthPx, heightPx } });
        const kernels = plainCameraKernels(cameraWork(mosaic, bin, frame));
        const fill = cameraLight(mosaic, bin, frame, kernels);
        for (let rowStart = 0; rowStart < heightPx; rowStart += rows) {
          const rowEnd = Math.min(heightPx, rowStart + rows);
          fill(rowStart, rowEnd);
          for (let pixel = 0; pixel < (rowEnd - rowStart) * widthPx; pixel++) {
            const row = topPx + rowStart + Math.floor(pixel / widthPx);
            expectPixel(kernels.strip, pixel, reference(row, leftPx + (pixel % widthPx)));
          }
        }
      },
    ),
  );
});

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
      const expected = renderPixel([r, g, b], toScene, curve, null, toOutput, luminance);
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

test('a look with colour is read from its table as the reference reads it, to 5e-5 of white', () => {
  const look = lookSchema.parse({
    ...defaultLook,
    cdl: { slope: [1.05, 1, 0.95], power: [1, 1.02, 1.05], saturation: 1.1 },
    bands: [{ hueDeg: 140, chroma: -0.2, turnDeg: -6 }],
  });
  const { curve, table } = compileLook(look);
  const { bin } = planDevelop(mosaicOfOne);
  const kernels = plainKernels({
    ...cameraWork(mosaicOfOne, bin, planFrame(mosaicOfOne, 'half')),
    light: { toScene, curve, lookTable: table, toOutput, luminance },
    table: encodeTable(rgbSpaces.srgb),
  });
  fc.assert(
    fc.property(fc.tuple(light, light, light), (rgb) => {
      kernels.strip.set(rgb);
      const [r = 0, g = 0, b = 0] = kernels.strip;
      const expected = renderPixel([r, g, b], toScene, curve, table, toOutput, luminance);
      kernels.light(1);
      expected.forEach((value, channel) => {
        expect(Math.abs((kernels.strip[channel] ?? 9) - value)).toBeLessThan(5e-5);
      });
    }),
  );
});

/** The least there is: one block. */
const mosaicOfOne: Mosaic = {
  values: Uint16Array.of(1, 1, 1, 1),
  widthPx: 2,
  heightPx: 2,
  filters: [0, 1, 1, 2],
  blackLevels: [0, 0, 0, 0],
  whiteLevel: 16_383,
  asShotMultipliers: [1, 1, 1],
  xyzToCamera: null,
  orientation: 1,
  baselineExposureEv: 0.5,
};

test('every byte is at most one code from exact rounding, and exact for all but a few in a thousand (decision 0008, measuring 19)', () => {
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
