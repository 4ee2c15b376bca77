import Color from 'colorjs.io';
import { uv } from 'colorjs.io/fn';
import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { xyToDuv, xyToUv76 } from './locus-distance.ts';
import type { Chromaticity } from './white-points.ts';

const table = readVector<{
  readonly isotemperature_lines: readonly (readonly [number, number, number, number])[];
}>('colour-cct.json').isotemperature_lines;

/** CIE 1960 u, v to x, y. CIE 15:2018, 8.1 with v' = 1.5 v. */
function uvToXy(u: number, v: number): Chromaticity {
  const divisor = 2 * u - 8 * v + 4;
  return [(3 * u) / divisor, (2 * v) / divisor];
}

/** Robertson 1968: points of the locus and the slope of the line of equal temperature through each. */
const lines = table.filter(([mired]) => mired >= 50 && mired <= 375);

test.each(lines)('the locus at %d mired has no distance; a step off it has its length', (_, u, v, slope) => {
  expect(Math.abs(xyToDuv(uvToXy(u, v)))).toBeLessThan(0.0001);
  const length = Math.hypot(1, slope);
  // Up along the line, away from the centre of the locus' curve: towards green.
  const [du, dv] = [-1 / length, -slope / length];
  expect(Math.abs(xyToDuv(uvToXy(u + 0.01 * du, v + 0.01 * dv)) - 0.01)).toBeLessThan(0.0003);
  expect(Math.abs(xyToDuv(uvToXy(u - 0.01 * du, v - 0.01 * dv)) + 0.01)).toBeLessThan(0.0003);
});

test('D65 lies 0.0032 above the locus, A on it (Ohno 2014, table of illuminants)', () => {
  expect(xyToDuv([0.31272, 0.32903])).toBeCloseTo(0.0032, 4);
  expect(xyToDuv([0.44758, 0.40745])).toBeCloseTo(0, 4);
});

test('u’, v’ are those of color.js', () => {
  const xy: Chromaticity = [0.2, 0.4];
  const color = new Color('xyz-d65', [xy[0] / xy[1], 1, (1 - xy[0] - xy[1]) / xy[1]]);
  const [u, v] = uv(color);
  expect(xyToUv76(xy)[0]).toBeCloseTo(u ?? 0, 9);
  expect(xyToUv76(xy)[1]).toBeCloseTo(v ?? 0, 9);
});
