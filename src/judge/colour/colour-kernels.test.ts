import { expect, test } from 'vitest';
import { growRegions, regionNumbers } from '../kernels/grow-regions.ts';
import { lightAtShare, logLight } from '../kernels/log-light.ts';
import { gaussian } from '../testing/made-light.ts';
import { madeMosaic } from '../testing/made-mosaic.ts';
import { type ColourLight, colourOfMosaic, colourOfPicture, halved, type Reduced } from './colour-light.ts';

/** The plain form: every block is the mean of what `at` gives. */
function plainReduced(light: ColourLight, factor: number): Float32Array {
  const [columns, rows] = [Math.floor(light.widthPx / factor), Math.floor(light.heightPx / factor)];
  const out = new Float32Array(columns * rows * 3);
  for (let y = 0; y < rows * factor; y++) {
    for (let x = 0; x < columns * factor; x++) {
      const to = (Math.floor(y / factor) * columns + Math.floor(x / factor)) * 3;
      light.at(x, y).light.forEach((value, k) => {
        out[to + k] += value / factor ** 2;
      });
    }
  }
  return out;
}

function expectEqual(own: Reduced, plain: Float32Array): void {
  expect(own.data).toHaveLength(plain.length);
  plain.forEach((value, index) => {
    expect(own.data[index]).toBeCloseTo(value, 5);
  });
}

const random = gaussian(5);

test.each([1, 2, 3])(
  'blocks of %d bins of a mosaic are the means of its bins, whatever the first filter',
  (factor) => {
    const made = madeMosaic(26, 19, () => Math.abs(random()) / 4);
    for (const filters of [
      [0, 1, 1, 2],
      [1, 0, 2, 1],
      [2, 1, 1, 0],
      [1, 2, 0, 1],
    ] as const) {
      const light = colourOfMosaic({ ...made, filters, asShotMultipliers: [2, 1, 1.5] });
      expectEqual(light.reduced(factor), plainReduced(light, factor));
    }
  },
);

test('blocks of a picture are the means of its linear light; halving them is the same as twice the block', () => {
  const picture = {
    data: Uint8Array.from({ length: 24 * 16 * 3 }, () => Math.floor(Math.abs(random()) * 90) % 256),
    widthPx: 24,
    heightPx: 16,
    channels: 3 as const,
  };
  const light = colourOfPicture(picture, 1);
  expectEqual(light.reduced(4), plainReduced(light, 4));
  expectEqual(halved(light.reduced(2)), plainReduced(light, 4));
  expect(halved(light.reduced(2)).factor).toBe(4);
});

test('a region has the pixels, the middle and the moments of its rectangle', () => {
  const [widthPx, heightPx] = [40, 30];
  const values = new Float32Array(widthPx * heightPx * 3).fill(-5);
  for (let y = 8; y < 18; y++) values.fill(1, (y * widthPx + 5) * 3, (y * widthPx + 25) * 3);
  const regions = new Float64Array(4 * regionNumbers);
  const count = growRegions(
    values,
    widthPx,
    heightPx,
    0.3,
    10,
    600,
    new Uint8Array(widthPx * heightPx),
    new Int32Array(widthPx * heightPx),
    regions,
  );
  expect(count).toBe(1);
  const [pixels = 0, x = 0, y = 0, xx = 0, xy = 1, yy = 0] = regions;
  expect([pixels, x, y]).toEqual([200, 14.5, 12.5]);
  // A rectangle's second moments are its sides squared over 12.
  expect(xx).toBeCloseTo(400 / 12, 9);
  expect(yy).toBeCloseTo(100 / 12, 9);
  expect(xy).toBeCloseTo(0, 9);
});

test('the light at a share is found to a 64th of a stop', () => {
  const light = Float32Array.from({ length: 1000 }, (_, index) => (index + 1) / 1000);
  expect(Math.abs(Math.log2(lightAtShare(light, 0.5) / 0.5))).toBeLessThan(1 / 32);
  const logs = new Float32Array(3);
  logLight(Float32Array.of(-1, 0, 0.99), 0.01, logs);
  expect(logs[2]).toBeCloseTo(0, 6);
  expect(logs[0]).toBe(logs[1]);
});
