import fc from 'fast-check';
import { expect, test } from 'vitest';
import { filterWeights } from './optics.ts';

test('no blur and no fraction is no filter', () => {
  expect([...filterWeights(0, 0)]).toEqual([1]);
});

test('weights sum to one and sit where they should, whatever the fraction and the blur', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -0.5, max: 0.5, noNaN: true }),
      fc.double({ min: 0.5, max: 4, noNaN: true }),
      (fraction, sigma) => {
        const weights = [...filterWeights(fraction, sigma)];
        const reach = (weights.length - 1) / 2;
        const sum = weights.reduce((total, weight) => total + weight, 0);
        const mean = weights.reduce((total, weight, index) => total + weight * (index - reach), 0);
        expect(sum).toBeCloseTo(1, 5);
        expect(mean).toBeCloseTo(fraction, 1);
      },
    ),
  );
});

test('the blur has the width asked for: variance of a normal plus that of one pixel (Sheppard, 1/12)', () => {
  for (const sigma of [0.7, 1, 2.5]) {
    const weights = [...filterWeights(0, sigma)];
    const reach = (weights.length - 1) / 2;
    const variance = weights.reduce((total, weight, index) => total + weight * (index - reach) ** 2, 0);
    expect(variance / (sigma * sigma + 1 / 12)).toBeCloseTo(1, 1);
  }
});
