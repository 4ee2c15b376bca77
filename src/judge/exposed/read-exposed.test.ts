import { expect, test } from 'vitest';
import { type ExposedReading, type Mosaic, stepStops, stopsFrom } from '../../facts/index.ts';
import { halfPlaneOf } from '../half-plane.ts';
import { greenOfMosaic } from '../light-grid.ts';
import { madeMosaic } from '../testing/made-mosaic.ts';
import { lightDifference } from './light-map.ts';
import { darkNoise } from './noise-floor.ts';
import { readExposedMosaic } from './read-exposed.ts';
import { saturationValue } from './saturation.ts';

const read = (mosaic: Mosaic, rowTimeS: number | null = null): ExposedReading => {
  const grid = greenOfMosaic(mosaic);
  return readExposedMosaic(mosaic, grid, halfPlaneOf(grid), { source: 'raw', rowTimeS });
};

test('a block at saturation is counted to the pixel, a small reflection beside it is an island', () => {
  const mosaic = madeMosaic(600, 400, (x, y) => {
    if (x >= 100 && x < 160 && y >= 100 && y < 200) return 1.3;
    return x >= 400 && x < 404 && y >= 300 && y < 304 ? 1 : 0.2;
  });
  const reading = read(mosaic);
  // 60 x 100 and 4 x 4 of 600 x 400 pixels.
  expect(reading.saturatedPercent).toBeCloseTo(2.5, 9);
  expect(reading.islandsPercent).toBeCloseTo((100 * 16) / 240_000, 9);
  expect(reading.green.saturatedPercent).toBeCloseTo(2.5 + 16 / 2400, 9);
  expect(reading.headroomStops).toBe(0);
});

test('one channel that saturates alone is not hidden by the others', () => {
  const reading = read(madeMosaic(200, 200, (x, _, filter) => (filter === 0 && x < 50 ? 1 : 0.3)));
  expect(reading.red.saturatedPercent).toBeCloseTo(25, 9);
  expect(reading.green.saturatedPercent).toBe(0);
  expect(reading.saturatedPercent).toBeCloseTo(25, 9);
});

test.each([1, 2, 3.5])(
  'a flat field %d stops below saturation has that headroom and that place in the histogram',
  (stops) => {
    const reading = read(madeMosaic(200, 100, () => 2 ** -stops));
    expect(reading.headroomStops).toBeCloseTo(stops, 2);
    // Scene value 1.0 lies 0.42 EV below saturation, 18 % grey log2(1 / 0.18) = 2.474 below that.
    const aboutGrey = 0.42 + Math.log2(1 / 0.18) - stops;
    expect(reading.middleStops).toBeCloseTo(aboutGrey, 2);
    const fullest = reading.histogram.green.indexOf(Math.max(...reading.histogram.green));
    expect(Math.abs(stopsFrom + (fullest + 0.5) * stepStops - aboutGrey)).toBeLessThanOrEqual(
      stepStops / 2 + 0.01,
    );
    expect(reading.histogram.green.reduce((sum, each) => sum + each, 0)).toBeCloseTo(100, 1);
  },
);

test('the deviation in the dark is read within a tenth, with texture in the light', () => {
  for (const noise of [2, 6, 20]) {
    const mosaic = madeMosaic(400, 300, (x) => (x < 200 ? 0.001 : 0.3 + 0.2 * Math.sin(x)), noise);
    expect(Math.abs(darkNoise(mosaic) / noise - 1)).toBeLessThan(0.1);
  }
  const reading = read(madeMosaic(400, 300, (x) => (x < 200 ? 0 : 0.5), 4));
  // Of the dark half, what lies less than one deviation above black: Φ(1) = 84 %.
  expect(Math.abs(reading.underNoisePercent - 0.5 * 84.1)).toBeLessThan(3);
});

test('a sensor that ends below its stated white level is found by the heap of its last value', () => {
  const counts = new Uint32Array(65_536);
  for (let value = 512; value < 15_000; value++) counts[value] = 100;
  expect(saturationValue(counts, 512, 15_871)).toBe(15_871);
  counts[15_000] = 5000;
  expect(saturationValue(counts, 512, 15_871)).toBe(15_000);
  expect(saturationValue(counts, 512, 60_000)).toBe(60_000);
});

test('white that reaches the border is told apart, and its evenness is read', () => {
  const product = (x: number, y: number): number => (Math.hypot(x - 300, y - 200) < 100 ? 0.2 : 1.05);
  const white = read(madeMosaic(600, 400, product));
  expect(white.atBorderPercent).toBeGreaterThan(80);
  expect(white.saturatedPercent).toBe(white.atBorderPercent);
  expect(white.backdrop).toEqual({ whitePercent: 100, unevenEv: 0 });
  // A hole in the product that is lost too does not reach the border: 40 x 40 of 600 x 400 pixels.
  const holed = read(
    madeMosaic(600, 400, (x, y) =>
      Math.abs(x - 299.5) < 20 && Math.abs(y - 199.5) < 20 ? 1.05 : product(x, y),
    ),
  );
  expect(holed.saturatedPercent - holed.atBorderPercent).toBeCloseTo((100 * 1600) / 240_000, 9);
  const falling = read(madeMosaic(600, 400, (x) => 0.8 * 2 ** (-x / 600)));
  // One stop over the width, from the middle of one corner to that of the other.
  expect(falling.backdrop.unevenEv).toBeCloseTo(1 - 3 / 32, 1);
  expect(falling.backdrop.whitePercent).toBe(0);
});

test('the light differs by what it was changed, whatever moved in the picture', () => {
  const scene = (x: number, y: number): number =>
    0.05 + 0.2 * ((Math.sin(x / 31) + 1) * (Math.cos(y / 17) + 1)) ** 0.5;
  const base = read(madeMosaic(480, 320, scene, 3)).light;
  for (const ev of [-2, -0.3, 0.1, 1]) {
    const changed = read(
      madeMosaic(480, 320, (x, y) => scene(x, y) * 2 ** ev * (x > 200 && x < 280 ? 0.3 : 1), 3),
    );
    const difference = lightDifference(changed.light, base);
    expect(difference?.ev).toBeCloseTo(ev, 1);
  }
  expect(lightDifference(base, { columns: 3, rows: 1, stops: [1, 2, 3] })).toBeNull();
});

test('lamps on 50 and 60 Hz mains are told by their stripes: 100 and 120 Hz', () => {
  // A shutter that takes 1/12 s over its rows: 8 and 10 stripes.
  const rowTimeS = 1 / 12 / 600;
  for (const hertz of [100, 120]) {
    const pulse = (y: number): number => 1 + 0.12 * Math.sin(2 * Math.PI * hertz * y * rowTimeS + 1);
    const scene = (x: number, y: number): number =>
      (0.1 + 0.1 * Math.sin(x / 40) ** 2 + (y > 400 ? 0.1 : 0)) * pulse(y);
    const { banding } = read(madeMosaic(800, 600, scene, 4), rowTimeS);
    expect(Math.abs((banding?.hertz ?? 0) / hertz - 1)).toBeLessThan(0.1);
    // From 0.88 to 1.12: 0.348 EV.
    expect(banding?.ev).toBeGreaterThan(0.25);
    expect(banding?.ev).toBeLessThan(0.42);
  }
});

test('things in the picture are no stripes', () => {
  const scenes = [
    (_: number, y: number) => 0.3 + 0.2 * (y / 600),
    (x: number, y: number) => 0.2 + (x > 100 && x < 500 ? 0.1 * Math.sin(y / 10) : 0),
    (x: number, y: number) => 0.2 + 0.1 * Math.sin((x + y) / 15),
  ];
  for (const scene of scenes) expect(read(madeMosaic(800, 600, scene, 4)).banding).toBeNull();
});
