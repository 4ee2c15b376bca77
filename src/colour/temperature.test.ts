import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { xyToDuv } from './locus-distance.ts';
import { temperatureToXy, xyToTemperature } from './temperature.ts';

interface Illuminant {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  readonly cct_robertson: number;
}

// CIE illuminants with the temperature that Robertson's table gives (colour-science's implementation of the same paper).
const { illuminants } = readVector<{ illuminants: readonly Illuminant[] }>('colour-cct.json');

test.each(illuminants)('the temperature of $name is $cct_robertson K', ({ x, y, cct_robertson }) => {
  expect(Math.abs(xyToTemperature([x, y]) - cct_robertson)).toBeLessThan(1);
});

test('chromaticities beyond the table end at its ends', () => {
  expect(xyToTemperature([0.7, 0.3])).toBeCloseTo(1e6 / 600, 6);
  expect(xyToTemperature([0.2, 0.2])).toBe(100_000);
});

/**
 * The Planckian locus in CIE 1960 u, v: M. Krystek, "An algorithm to calculate correlated colour temperature", Color Res.
 * Appl. 10 (1985) 38-40, good to 8e-5 from 1000 to 15,000 K (coefficients from memory).
 */
function krystek(T: number): readonly [number, number] {
  return [
    (0.860117757 + 1.54118254e-4 * T + 1.28641212e-7 * T * T) /
      (1 + 8.42420235e-4 * T + 7.08145163e-7 * T * T),
    (0.317398726 + 4.22806245e-5 * T + 4.20481691e-8 * T * T) /
      (1 - 2.89741816e-5 * T + 1.61456053e-7 * T * T),
  ];
}

test('a temperature lies on the Planckian locus, as an independent formula has it', () => {
  for (let temperatureK = 1700; temperatureK <= 15_000; temperatureK += 130) {
    const [x, y] = temperatureToXy(temperatureK);
    const divisor = -2 * x + 12 * y + 3;
    const [u, v] = krystek(temperatureK);
    // 8e-5 of the formula, and the chord between two lines of the table.
    expect(Math.hypot((4 * x) / divisor - u, (6 * y) / divisor - v)).toBeLessThan(2e-4);
  }
});

test('temperature and Duv come back from the chromaticity they make', () => {
  for (const temperatureK of [2700, 3200, 4000, 5000, 5500, 6504, 7500, 10_000]) {
    for (const duv of [-0.02, -0.005, 0, 0.003, 0.02]) {
      const white = temperatureToXy(temperatureK, duv);
      // Reciprocal temperature is what the eye sees: 0.2 mired is a twenty-fifth of a just visible step (5.5 mired,
      // D. B. Judd 1932, from memory).
      expect(Math.abs(1e6 / xyToTemperature(white) - 1e6 / temperatureK)).toBeLessThan(0.2);
      expect(Math.abs(xyToDuv(white) - duv)).toBeLessThan(3e-4);
    }
  }
});

test('illuminant A is 2856 K on the locus, D65 6504 K and 0.0032 above it (CIE 15:2018 for x, y)', () => {
  const [xA, yA] = temperatureToXy(2856);
  expect(xA).toBeCloseTo(0.4476, 3);
  expect(yA).toBeCloseTo(0.4074, 3);
  const [x65, y65] = temperatureToXy(6504, 0.0032);
  expect(x65).toBeCloseTo(0.3127, 3);
  expect(y65).toBeCloseTo(0.329, 3);
});

test('temperatures beyond the table are held at its ends', () => {
  expect(temperatureToXy(1000)).toEqual(temperatureToXy(1e6 / 600));
  expect(temperatureToXy(1e9)).toEqual(temperatureToXy(100_000));
});
