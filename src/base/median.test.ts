import { expect, test } from 'vitest';
import { median } from './median.ts';

test('the median is the middle one, or the mean of the middle two, as NumPy has it', () => {
  // numpy.median([10, 7, 4, 3, 2, 1]) == 3.5: NumPy's reference page of `median`, its first example, row by row joined.
  expect(median([10, 7, 4, 3, 2, 1])).toBe(3.5);
  // By hand: three in order are 2, 10, 33; as text 10 would come first.
  expect(median([10, 2, 33])).toBe(10);
});

test('of no values the median is 0', () => {
  expect(median([])).toBe(0);
});
