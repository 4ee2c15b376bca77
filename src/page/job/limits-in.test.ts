import { expect, test } from 'vitest';
import { limitsIn } from './limits-in.ts';

test('two figures are limits, with a point or a comma, and nothing at all sets none', () => {
  expect(limitsIn(' 0,5', '1.25 ')).toEqual({ good: 0.5, bad: 1.25 });
  expect(limitsIn('0', '1000000')).toEqual({ good: 0, bad: 1_000_000 });
  expect(limitsIn('2', '2')).toEqual({ good: 2, bad: 2 });
  expect(limitsIn(' ', '')).toBeNull();
});

test('what cannot be limits is named', () => {
  expect(limitsIn('2', '')).toBe('bothWanted');
  expect(limitsIn('4', '2')).toBe('goodBelowBad');
  for (const text of ['-1', '1e3', '2 px', '1.2.3', '1000001'])
    expect(limitsIn('0', text), text).toBe('noNumber');
});
