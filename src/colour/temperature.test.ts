import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { xyToTemperature } from './temperature.ts';

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
