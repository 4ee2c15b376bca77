import { expect, test } from 'vitest';
import { grainLayer, grainSeed } from './grain.ts';
import { grainWeight } from './grain-reference.ts';

const luminance = [0.2126, 0.7152, 0.0722] as const;

/** Densities that grain adds to an even grey. */
function added(
  light: number,
  sizePx: number,
  density: number,
  perPixel: 1 | 2,
  widthPx: number,
  rows: number,
  left = 0,
  top = 0,
) {
  const rgb = new Float32Array(widthPx * rows * 3).fill(light);
  grainLayer({ sizePx, density }, 42, perPixel, left, widthPx, luminance)(rgb, top, top + rows);
  return Float64Array.from({ length: widthPx * rows }, (_, i) => -Math.log10((rgb[i * 3] ?? 0) / light));
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function deviation(values: Float64Array): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

test.each([1, 2, 4.5])(
  'grain of %d px: a mid-grey keeps its mean density and varies by the granularity',
  (sizePx) => {
    const found = added(0.18, sizePx, 0.08, 1, 400, 400);
    // 160,000 pixels of about size^2 each tell a mean within 3 sigma size / 400, a deviation within a few per cent.
    expect(Math.abs(mean(found))).toBeLessThan((3 * 0.08 * 1.5 * sizePx) / 400);
    expect(Math.abs(deviation(found) / 0.08 - 1)).toBeLessThan(0.04);
  },
);

test.each([2, 4, 8])(
  'grain of %d px is as wide as it says: the autocorrelation is a half at half the diameter',
  (sizePx) => {
    const found = added(0.18, sizePx, 0.05, 1, 600, 300);
    const lag = sizePx / 2;
    let [products, squares] = [0, 0];
    for (let row = 0; row < 300; row++) {
      for (let x = 0; x + lag < 600; x++) {
        products += (found[row * 600 + x] ?? 0) * (found[row * 600 + x + lag] ?? 0);
        squares += (found[row * 600 + x] ?? 0) ** 2;
      }
    }
    // The smallest is hardly wider than the pixels that it is sampled in.
    expect(Math.abs(products / squares - 0.5)).toBeLessThan(0.06);
  },
);

test('grain is strongest in the middle densities, and neither white nor black has any', () => {
  const at = (light: number): number => deviation(added(light, 2, 0.05, 1, 100, 100));
  expect(at(0.18)).toBeGreaterThan(at(0.6));
  expect(at(0.18)).toBeGreaterThan(at(0.02));
  expect(at(1)).toBe(0);
  expect(grainWeight(0)).toBe(0);
  expect(grainWeight(0.18)).toBeCloseTo(1, 12);
});

test('half size reads four pixels of full size: the mean of their densities', () => {
  const full = added(0.18, 3, 0.06, 1, 80, 60, 20, 10);
  const half = added(0.18, 3, 0.06, 2, 40, 30, 10, 5);
  half.forEach((value, i) => {
    const at = Math.floor(i / 40) * 2 * 80 + (i % 40) * 2;
    const four = [full[at], full[at + 1], full[at + 80], full[at + 81]].map((density) => density ?? 0);
    expect(value).toBeCloseTo(four.reduce((sum, density) => sum + density, 0) / 4, 5);
  });
});

test('the same original has the same grain, another has another', () => {
  const data = Uint16Array.from({ length: 9000 }, (_, i) => (i * 37) % 4096);
  const seed = grainSeed({ data, widthPx: 100, heightPx: 90 });
  expect(grainSeed({ data: data.slice(), widthPx: 100, heightPx: 90 })).toBe(seed);
  data[2] = 4000;
  expect(grainSeed({ data, widthPx: 100, heightPx: 90 })).not.toBe(seed);
});
