import { expect, test } from 'vitest';
import { roundTicks } from './plot.ts';

test('the figures of an axis are round and lie within it', () => {
  // By hand: 1, 2 or 5 times a power of ten, the least that parts the span into no more than so many steps.
  expect(roundTicks(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
  expect(roundTicks(0, 37, 5)).toEqual([0, 10, 20, 30]);
  expect(roundTicks(-0.6, 0.6, 4)).toEqual([-0.5, 0, 0.5]);
  expect(roundTicks(0, 0.8, 4)).toEqual([0, 0.2, 0.4, 0.6, 0.8]);
  expect(roundTicks(0, 100, 4)).toEqual([0, 50, 100]);
});
