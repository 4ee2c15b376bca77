import { expect, test } from 'vitest';
import type { Mosaic } from '../facts/index.ts';
import { findHotPixels, withMended } from './hot-pixels.ts';
import { normalNumbers } from './testing/normal-numbers.ts';

const widthPx = 240;
const heightPx = 160;
const black = 512;

/** A noisy frame (read 4, shot 1 per value) of balanced light through filters that see 0.5, 1, 0.6 of it. */
function frame(lightAt: (row: number, column: number) => number): Mosaic {
  const normal = normalNumbers(3);
  const seen = [0.5, 1, 0.6];
  const filters = [0, 1, 1, 2] as const;
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    const row = Math.floor(index / widthPx);
    const column = index % widthPx;
    const light = lightAt(row, column) * (seen[filters[(row & 1) * 2 + (column & 1)] ?? 1] ?? 1);
    return Math.max(0, Math.min(15_871, Math.round(black + light + Math.sqrt(16 + light) * normal())));
  });
  return {
    values,
    widthPx,
    heightPx,
    filters,
    blackLevels: [black, black, black, black],
    whiteLevel: 15_871,
    asShotMultipliers: [2, 1, 1 / 0.6],
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv: 0,
  };
}

const grey = (): number => 1500;

test.each([
  ['red', 40, 60],
  ['green in red’s row', 40, 61],
  ['green in blue’s row', 41, 60],
  ['blue', 41, 61],
])('a hot and a dead pixel at %s are found, and mended to what lies around', (_, row, column) => {
  const mosaic = frame(grey);
  const hot = row * widthPx + column;
  const dead = (row + 60) * widthPx + column + 60;
  mosaic.values[hot] = 4000;
  mosaic.values[dead] = black;
  const found = findHotPixels(mosaic);
  expect(found.map(({ at }) => at)).toEqual([hot, dead]);
  for (const { at, value } of found) {
    const beside = ((mosaic.values[at - 2] ?? 0) + (mosaic.values[at + 2] ?? 0)) / 2;
    expect(Math.abs(value - beside)).toBeLessThan(150);
  }
});

test('the mosaic is changed only while the work lasts, also where that fails', () => {
  const mosaic = frame(grey);
  mosaic.values[40 * widthPx + 60] = 9000;
  const before = mosaic.values.slice();
  const mended = findHotPixels(mosaic);
  expect(withMended(mosaic, mended, () => mosaic.values[40 * widthPx + 60])).toBeLessThan(2000);
  expect(mosaic.values).toEqual(before);
  expect(() =>
    withMended(mosaic, mended, () => {
      throw new Error('broken');
    }),
  ).toThrow('broken');
  expect(mosaic.values).toEqual(before);
});

test('noise alone has no hot pixels', () => {
  expect(findHotPixels(frame(grey))).toEqual([]);
  expect(findHotPixels(frame(() => 0))).toEqual([]);
});

/** Share of a Gaussian of standard deviation `sigma` px that falls on the pixel `offset` px from its middle (Simpson). */
function share(offset: number, sigma: number): number {
  const steps = 20;
  let sum = 0;
  for (let step = 0; step <= steps; step++) {
    const x = offset - 0.5 + step / steps;
    const weight = step === 0 || step === steps ? 1 : step % 2 === 1 ? 4 : 2;
    sum += weight * Math.exp((-x * x) / (2 * sigma * sigma));
  }
  return sum / (3 * steps) / (sigma * Math.sqrt(2 * Math.PI));
}

test.each([0.4, 0.5, 0.7, 1, 2])(
  'stars spread by a lens (sigma %d px) are left alone, wherever they fall',
  (sigma) => {
    const places = Array.from({ length: 60 }, (_, index) => [
      12 + (index % 6) * 25 + ((index * 37) % 100) / 100,
      12 + Math.floor(index / 6) * 22 + ((index * 61) % 100) / 100,
    ]);
    const mosaic = frame((row, column) =>
      places.reduce((sum, [y = 0, x = 0]) => {
        if (Math.abs(row - y) > 8 || Math.abs(column - x) > 8) return sum;
        return sum + 9000 * share(row - y, sigma) * share(column - x, sigma);
      }, 300),
    );
    expect(findHotPixels(mosaic)).toEqual([]);
  },
);

test.each([
  ['an upright edge', (_: number, column: number) => (column < 120 ? 300 : 12_000)],
  ['a slanted edge', (row: number, column: number) => (column + row * 0.3 < 150 ? 300 : 12_000)],
  ['a line one pixel wide', (_: number, column: number) => (column === 120 ? 12_000 : 300)],
  [
    'a slanted line one pixel wide',
    (row: number, column: number) => (Math.abs(column - 60 - row * 0.4) < 0.5 ? 12_000 : 300),
  ],
  ['a corner', (row: number, column: number) => (row > 80 && column > 120 ? 12_000 : 300)],
  ['a weave', (row: number, column: number) => 3000 * (1 + Math.sin(row * 1.9) * Math.sin(column * 2.3))],
])('%s is left alone', (_, light) => {
  expect(findHotPixels(frame(light))).toEqual([]);
});

test('a frame with more outliers than a sensor has is not understood, and left alone', () => {
  const mosaic = frame(grey);
  for (let at = 4 * widthPx + 4; at < (heightPx - 4) * widthPx; at += 401) mosaic.values[at] = 9000;
  expect(findHotPixels(mosaic)).toEqual([]);
});
