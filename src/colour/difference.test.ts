import Color from 'colorjs.io';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { deltaE76, deltaE2000 } from './difference.ts';
import type { Vector3 } from './matrix.ts';

interface SharmaPair {
  readonly pair: number;
  readonly lab1: Vector3;
  readonly lab2: Vector3;
  readonly dE00: number;
}

// Sharma, Wu, Dalal 2005, Table 1; the table prints four decimals.
const table = readVector<{ pairs: readonly SharmaPair[] }>('colour-ciede2000-sharma-34.json').pairs;

test.each(table)(
  'CIEDE2000 of pair $pair of the published table is $dE00, both ways round',
  ({ lab1, lab2, dE00 }) => {
    expect(Math.abs(deltaE2000(lab1, lab2) - dE00)).toBeLessThan(0.00006);
    expect(Math.abs(deltaE2000(lab2, lab1) - dE00)).toBeLessThan(0.00006);
  },
);

test('the published table was read whole', () => {
  expect(table).toHaveLength(34);
});

const lab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
);

/** color.js takes a colour for grey whose a* and b* are both below 250 / 100,000, and leaves its chroma out: ours does not. */
const coloured = lab.filter(([, a, b]) => Math.max(Math.abs(a), Math.abs(b)) >= 0.0025);

/**
 * At opposite hues the formula jumps, since either way round is the shorter one (Sharma, Wu, Dalal 2005, "Mathematical
 * Observations"): there the last digit decides, and two right programs may differ.
 */
function opposite([, a1, b1]: Vector3, [, a2, b2]: Vector3): boolean {
  const turnDegrees = Math.abs(((Math.atan2(b1, a1) - Math.atan2(b2, a2)) * 180) / Math.PI);
  return Math.abs(turnDegrees - 180) < 1e-3 || Math.hypot(a1, b1) * Math.hypot(a2, b2) === 0;
}

test('CIEDE2000 and CIE76 of any two colours agree with color.js', () => {
  fc.assert(
    fc.property(coloured, coloured, (first, second) => {
      fc.pre(!opposite(first, second));
      const a = new Color('lab', first);
      const b = new Color('lab', second);
      expect(deltaE2000(first, second)).toBeCloseTo(a.deltaE(b, '2000'), 7);
      expect(deltaE76(first, second)).toBeCloseTo(a.deltaE(b, '76'), 7);
    }),
  );
});

test('without the weight of lightness greys differ by their lightness, and colours of equal lightness as ever', () => {
  expect(deltaE2000([20, 0, 0], [30, 0, 0], true)).toBe(10);
  expect(deltaE2000([20, 0, 0], [30, 0, 0])).toBeLessThan(9);
  expect(deltaE2000([50, 20, 5], [50, 10, -5], true)).toBe(deltaE2000([50, 20, 5], [50, 10, -5]));
});
