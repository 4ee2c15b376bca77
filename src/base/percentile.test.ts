import { expect, test } from 'vitest';
import { percentile } from './percentile.ts';

test('a percentile lies between the ranks as NumPy and R lay it by default', () => {
  // numpy.percentile([10, 7, 4, 3, 2, 1], 50) == 3.5: NumPy's reference page of `percentile`, its first example, row by row joined.
  expect(percentile([10, 7, 4, 3, 2, 1], 0.5)).toBe(3.5);
  // By hand after definition 7: rank 0.9 * 3 = 2.7 between 3 and 4.
  expect(percentile([4, 1, 3, 2], 0.9)).toBeCloseTo(3.7, 12);
  expect(percentile([5], 0.99)).toBe(5);
});
