import { expect, test } from 'vitest';
import type { Matrix3, Vector3 } from '../../colour/index.ts';
import { falloffGain, falloffSteepness } from '../../look/index.ts';
import { liftPlane } from '../kernels/acutance-plane.ts';
import { falloffRows } from '../kernels/falloff-rows.ts';
import { grainLine, layGrain, whiteNoise } from '../kernels/grain-rows.ts';
import { mergeDetail, splitDetail } from '../kernels/noise-scale.ts';
import { resampleRow, weightsLength } from '../kernels/resample-rows.ts';
import { smoothPlane } from '../kernels/smooth-plane.ts';
import { normalNumbers } from '../testing/normal-numbers.ts';
import { gaussianTaps, liftReference } from './acutance-reference.ts';
import { grainFactor, grainField, grainTaps, grainWeight } from './grain-reference.ts';
import { stabilise, unstabilise } from './noise-scale.ts';
import { resampleReference } from './resample-reference.ts';
import { smoothReference } from './smooth-reference.ts';

/** Edges and noise on a scale where noise is 1. */
function madePlane(widthPx: number, heightPx: number, start: number): number[][] {
  const normal = normalNumbers(start);
  return Array.from({ length: heightPx }, (_, row) =>
    Array.from({ length: widthPx }, (_, column) => 60 + (column > row ? 40 : 0) + normal()),
  );
}

function largestDifference(found: Float32Array, expected: readonly (readonly number[])[]): number {
  return expected
    .flat()
    .reduce((most, value, i) => Math.max(most, Math.abs(value - (found[i] ?? Number.NaN))), 0);
}

test.each([
  ['wide', 61, 23],
  ['high', 9, 40],
  ['smaller than the taps reach', 5, 3],
  ['one row', 7, 1],
])('smoothing: the kernel does what the reference says on a plane that is %s', (_, widthPx, heightPx) => {
  const plane = madePlane(widthPx, heightPx, 3);
  const limits = [1.2, 0.4, 0.2, 0.1];
  const found = Float32Array.from(plane.flat());
  smoothPlane(
    found,
    widthPx,
    heightPx,
    Float64Array.from(limits, (limit) => limit * limit),
    new Float32Array(4 * found.length),
  );
  expect(largestDifference(found, smoothReference(plane, limits))).toBeLessThan(2e-4);
});

test.each([
  [0.4, 0, 1],
  [1, 1.4, 2],
  [2.5, 0.5, 4],
])('acutance: the kernel does what the reference says, width %d px, gate %d', (sigmaPx, gate, reachPx) => {
  const plane = madePlane(31, 22, 5);
  const taps = gaussianTaps(sigmaPx);
  const lightness = Float32Array.from(plane.flat());
  const lift = new Float32Array(lightness.length);
  liftPlane(
    lightness,
    31,
    22,
    Float64Array.from(taps),
    2,
    gate,
    reachPx,
    new Float32Array(3 * lightness.length),
    lift,
  );
  expect(largestDifference(lift, liftReference(plane, { taps, strength: 2, gate, reachPx }))).toBeLessThan(
    1e-5,
  );
});

test('the scale of noise goes there and back, and the kernels do what the reference says', () => {
  const scale = { shot: 3e-4, read: 2e-7 };
  const light = [-0.002, -1e-5, 0, 1e-5, 0.001, 0.02, 0.18, 0.7, 1, 2.1];
  for (const value of light) expect(unstabilise(scale, stabilise(scale, value))).toBeCloseTo(value, 10);
  const rgb = Float32Array.from(light.flatMap((value) => [value, value * 0.7, value * 1.2]));
  const [lightness, red, blue] = [0, 1, 2].map(() => new Float32Array(light.length)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const before = rgb.slice();
  splitDetail(rgb, light.length, scale.shot, scale.read, lightness, red, blue);
  light.forEach((value, i) => {
    const [r, g, b] = [value, value * 0.7, value * 1.2].map((channel) => stabilise(scale, channel)) as [
      number,
      number,
      number,
    ];
    expect(lightness[i]).toBeCloseTo((r + 2 * g + b) / 4, 3);
    expect(red[i]).toBeCloseTo(r - g, 3);
    expect(blue[i]).toBeCloseTo(b - g, 3);
  });
  mergeDetail(
    rgb,
    light.length,
    scale.shot,
    scale.read,
    lightness,
    red,
    blue,
    new Float32Array(light.length).fill(1),
  );
  rgb.forEach((value, i) => {
    expect(Math.abs(value - (before[i] ?? 0))).toBeLessThan(1e-6);
  });
});

test.each([1.5, -2])('falloff of %d EV: the kernel does what the reference says', (falloffEv) => {
  const [widthPx, rows, left, top] = [9, 4, 100, 50];
  const rgb = new Float32Array(widthPx * rows * 3).fill(0.5);
  const half = Math.hypot(300, 200) / 2;
  falloffRows(
    rgb,
    widthPx,
    rows,
    left,
    top,
    150 / half,
    100 / half,
    1 / half,
    falloffSteepness(falloffEv),
    falloffEv < 0,
  );
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < widthPx; column++) {
      const r = Math.hypot(left + column + 0.5 - 150, top + row + 0.5 - 100) / half;
      expect(rgb[(row * widthPx + column) * 3 + 1]).toBeCloseTo(0.5 * falloffGain(falloffEv, r), 6);
    }
  }
});

test('grain: lines through the kernel make the field of the reference', () => {
  const taps = grainTaps(3);
  const before = (taps.length - 1) / 2;
  const white = new Float32Array(100);
  const [row, left, count] = [-4, 1000, 12];
  const field = new Float64Array(count);
  taps.forEach((tap, k) => {
    const line = new Float32Array(count);
    grainLine(99, row + k - before, left, count, 1, before, Float64Array.from(taps), white, line, 0);
    line.forEach((value, i) => {
      field[i] = (field[i] ?? 0) + tap * value;
    });
  });
  field.forEach((value, i) => {
    expect(value).toBeCloseTo(grainField(99, taps, row, left + i), 5);
  });
});

test('grain: it is laid on light by the factor of the reference', () => {
  const weights = Float32Array.from({ length: 1025 }, (_, i) => grainWeight((i / 1024) ** 2));
  const light = [0, 0.001, 0.02, 0.18, 0.5, 0.99, 1];
  const rgb = Float32Array.from(light.flatMap((value) => [value, value, value]));
  const field = Float32Array.from(light, (_, i) => i - 3);
  layGrain(rgb, 0, field, 0, light.length, 0.1, weights, Float64Array.of(0.2126, 0.7152, 0.0722));
  light.forEach((value, i) => {
    expect(rgb[i * 3]).toBeCloseTo(value * grainFactor(value, 0.1, i - 3), 3);
  });
});

test('white noise has mean 0, standard deviation 1, and no pattern from pixel to pixel or row to row', () => {
  const count = 200_000;
  const at = (row: number, x: number): number => whiteNoise((5 ^ Math.imul(row, 0x85ebca77)) | 0, x);
  const mean = (of: (x: number) => number): number =>
    Array.from({ length: count }, (_, x) => of(x)).reduce((sum, value) => sum + value, 0) / count;
  // Three standard deviations of such a mean are 0.007.
  expect(Math.abs(mean((x) => at(3, x)))).toBeLessThan(0.007);
  expect(Math.abs(mean((x) => at(3, x) ** 2) - 1)).toBeLessThan(0.01);
  expect(Math.abs(mean((x) => at(3, x) * at(3, x + 1)))).toBeLessThan(0.007);
  expect(Math.abs(mean((x) => at(3, x) * at(4, x)))).toBeLessThan(0.007);
});

const homographies: readonly (readonly [string, Matrix3])[] = [
  ['a turn', [0.99, -0.14, 3, 0.14, 0.99, -1, 0, 0, 1]],
  ['two lines levelled', [0.9, 0.02, 2, 0.05, 1.1, 1, 0.001, -0.004, 1]],
  ['a reduction by 2.3', [2.3, 0, 1.2, 0, 2.3, 0.4, 0, 0, 1]],
];

test.each(homographies)('resampling: the kernel does what the reference says for %s', (_, matrix) => {
  const [widthPx, heightPx] = [40, 30];
  const normal = normalNumbers(11);
  const source = Float32Array.from({ length: widthPx * heightPx * 3 }, () => 0.5 + 0.1 * normal());
  const at = (row: number, column: number): Vector3 => {
    const y = Math.min(heightPx - 1, Math.max(0, row));
    const x = Math.min(widthPx - 1, Math.max(0, column));
    const [r = 0, g = 0, b = 0] = source.subarray((y * widthPx + x) * 3, (y * widthPx + x) * 3 + 3);
    return [r, g, b];
  };
  const out = new Float32Array(12 * 3);
  const numbers = Float64Array.from(matrix);
  const [weightsX, weightsY] = [new Float64Array(weightsLength), new Float64Array(weightsLength)];
  for (const y of [0.5, 3.5, 9.5]) {
    resampleRow(source, widthPx, heightPx, 0, 0, numbers, 0.5, y, 12, weightsX, weightsY, out, 0);
    for (let x = 0; x < 12; x++) {
      resampleReference(at, matrix, x + 0.5, y).forEach((value, channel) => {
        // Weights are tabled in 512 phases a pixel.
        expect(Math.abs(value - (out[x * 3 + channel] ?? 0))).toBeLessThan(2e-3);
      });
    }
  }
});
