import { expect, test } from 'vitest';
import type { GainMap, Mosaic } from '../../facts/index.ts';
import { mendBadPixels } from './bad-pixels.ts';
import { correctSamples } from './correct-samples.ts';
import { mapGain } from './lens-reference.ts';

function mosaicOf(values: Uint16Array, widthPx: number): Mosaic {
  return {
    values,
    widthPx,
    heightPx: values.length / widthPx,
    filters: [0, 1, 1, 2],
    blackLevels: [100, 110, 120, 130],
    whiteLevel: 4000,
    asShotMultipliers: [1, 1, 1],
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv: 0,
  };
}

const map: GainMap = {
  kind: 'gain-map',
  within: [0, 0, 20, 20],
  plane: 0,
  planes: 1,
  rowPitch: 2,
  columnPitch: 2,
  pointsV: 2,
  pointsH: 3,
  spacing: [1, 0.5],
  origin: [0, 0],
  mapPlanes: 1,
  gains: Float32Array.of(1, 1.5, 3, 1, 1.2, 2),
};

test('a gain map raises light over black, at its pitch only, and ends at white (GainMap of DNG 1.7.1, chapter 7)', () => {
  const mosaic = mosaicOf(new Uint16Array(100).fill(1500), 10);
  const area = { widthPx: 20, heightPx: 20 };
  // The mosaic begins at an odd row and an even column of the area: red lies at odd rows of that.
  const lens = {
    area,
    leftPx: 4,
    topPx: 3,
    samples: [{ ...map, within: [1, 0, 20, 20] as const }],
    steps: [],
  };
  const { values, blackLevels, whiteLevel, lens: left } = correctSamples({ ...mosaic, lens });
  const factor = whiteLevel / 4000;
  expect(factor).toBe(16);
  expect(left?.samples).toEqual([]);
  values.forEach((value, at) => {
    const [row, column] = [Math.floor(at / 10), at % 10];
    const black = blackLevels[(row % 2) * 2 + (column % 2)] ?? 0;
    const isOf = (row + 3 - 1) % 2 === 0 && (column + 4) % 2 === 0;
    const gain = isOf ? mapGain(map, area, 0, column + 4, row + 3) : 1;
    const expected = Math.min(whiteLevel, Math.round((1500 * factor - black) * gain + black));
    expect(Math.abs(value - expected), `${row} ${column}`).toBeLessThanOrEqual(1);
  });
  expect(mosaic.values.every((value) => value === 1500)).toBe(true);
});

test('without maps the mosaic is the one that was given', () => {
  const mosaic = mosaicOf(new Uint16Array(100), 10);
  expect(correctSamples(mosaic)).toBe(mosaic);
});

test('bad samples take the mean of the good ones of their own filter, and no other is touched', () => {
  const values = Uint16Array.from({ length: 144 }, (_, at) => 200 + (at % 12) + 10 * Math.floor(at / 12));
  const mosaic = mosaicOf(values, 12);
  const before = values.slice();
  values[5 * 12 + 5] = 0;
  values[5 * 12 + 7] = 0;
  values[0] = 0;
  // One by its place, an area with one more, one beyond the picture, and what has the value 0.
  const bad = {
    points: [
      [5, 5],
      [-3, 40],
    ] as const,
    areas: [[5, 7, 6, 8]] as const,
    constant: 0,
  };
  expect(mendBadPixels(mosaic, bad)).toBe(3);
  // A plane is its own mean, but for the neighbour that is bad too: eight less one around (5, 5).
  expect(values[5 * 12 + 5]).toBe(
    Math.round((8 * (before[5 * 12 + 5] ?? 0) - (before[5 * 12 + 7] ?? 0)) / 7),
  );
  // The corner has three: (0,2), (2,0), (2,2).
  expect(values[0]).toBe(Math.round((202 + 220 + 222) / 3));
  expect(values.filter((value, at) => value !== before[at]).length).toBeLessThanOrEqual(3);
});

test('what has no good one near stays as it is', () => {
  const mosaic = mosaicOf(new Uint16Array(400), 20);
  expect(mendBadPixels(mosaic, { points: [], areas: [], constant: 0 })).toBe(0);
});
