import { describe, expect, test } from 'vitest';
import type { Mosaic } from '../facts/index.ts';
import { estimateNoise } from './noise-profile.ts';
import { normalNumbers } from './testing/normal-numbers.ts';

/** A frame of known noise: variance = read^2 + shot x value, in raw values. */
function noisy(read: number, shot: number, lightAt: (row: number, column: number) => number): Mosaic {
  const normal = normalNumbers(7);
  const widthPx = 960;
  const heightPx = 720;
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    const light = lightAt(Math.floor(index / widthPx), index % widthPx);
    const value = light + Math.sqrt(read * read + shot * light) * normal();
    return Math.max(0, Math.min(15_871, Math.round(512 + value)));
  });
  return {
    values,
    widthPx,
    heightPx,
    filters: [0, 1, 1, 2],
    blackLevels: [512, 512, 512, 512],
    whiteLevel: 15_871,
    asShotMultipliers: [2, 1, 1.6],
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv: 0,
  };
}

/** A ramp from dark to bright. */
const ramp = (_: number, column: number): number => 20 + column * 10;

/** Half of the frame a weave of high contrast, down to the pixel. */
function weave(row: number, column: number): number {
  const light = ramp(row, column);
  return row < 360 ? light : light * (0.6 + 0.4 * Math.sin(column * 1.3) * Math.sin(row * 0.9));
}

describe.each([
  [4, 0.5],
  [12, 2],
  [3, 8],
])('read noise %d and shot noise %d per value, in raw values', (read, shot) => {
  // Texture in half of a bin's blocks makes the quartile of all the median of the smooth ones: 9 % high, as derived in
  // noise-profile.ts; the weave is darker than the ramp it was made of, so that some bins hold more of it (measured: 14 %).
  test.each([
    ['a ramp', ramp, 0.95, 1.05],
    ['half of it a weave', weave, 0.95, 1.17],
  ] as const)(
    '%s: both are told, the whole no lower than %d and no higher than %d times at a middle level',
    (_, light, low, high) => {
      const profile = estimateNoise(noisy(read, shot, light));
      expect(profile).not.toBeNull();
      for (const { readVariance, shotPerValue } of profile ?? []) {
        expect(shotPerValue / shot).toBeGreaterThan(low - 0.05);
        expect(shotPerValue / shot).toBeLessThan(high + 0.05);
        const told = readVariance + shotPerValue * 2000;
        expect(told / (read * read + shot * 2000)).toBeGreaterThan(low);
        expect(told / (read * read + shot * 2000)).toBeLessThan(high);
      }
    },
  );
});

test('a dark frame shows read noise alone', () => {
  for (const { readVariance, shotPerValue } of estimateNoise(noisy(9, 1, () => 0)) ?? []) {
    expect(Math.abs(readVariance / 81 - 1)).toBeLessThan(0.1);
    expect(shotPerValue * 100).toBeLessThan(10);
  }
});

test('a frame that is all saturated, or too small, tells nothing', () => {
  expect(estimateNoise(noisy(4, 1, () => 30_000))).toBeNull();
  const small = { ...noisy(4, 1, ramp), widthPx: 8, heightPx: 8 };
  expect(estimateNoise(small)).toBeNull();
});
