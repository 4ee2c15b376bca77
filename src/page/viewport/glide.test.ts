import fc from 'fast-check';
import { expect, test } from 'vitest';
import { between, glided, hasArrived } from './glide.ts';

const whole = { scale: 0.2, centreX: 0.5, centreY: 0.5 };
const close = { scale: 1, centreX: 0.7, centreY: 0.4 };

test('the ends of the way are the two views', () => {
  expect(between(whole, close, 0)).toEqual(whole);
  expect(hasArrived(between(whole, close, 1), close)).toBe(true);
});

test('the scale goes in equal ratios', () => {
  expect(between({ ...whole, scale: 0.25 }, { ...close, scale: 4 }, 0.5).scale).toBeCloseTo(1, 9);
});

test('the spot that both views show under one point lies under it all the way', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
      // Shares of the width: under the point p a view shows centre + p / scale. In both views alike for this p.
      const p = (close.centreX - whole.centreX) / (1 / whole.scale - 1 / close.scale);
      const spot = whole.centreX + p / whole.scale;
      const view = between(whole, close, share);
      expect(view.centreX + p / view.scale).toBeCloseTo(spot, 9);
    }),
  );
});

test('without a change of scale the middle goes straight', () => {
  const view = between(close, { ...close, centreX: 0.9 }, 0.25);
  expect(view.centreX).toBeCloseTo(0.75, 9);
  expect(view.scale).toBe(1);
});

test('it comes nearer with every step, in two steps as far as in one, and ends at the very view', () => {
  const once = glided(whole, close, 40);
  const twice = glided(glided(whole, close, 20), close, 20);
  expect(twice.scale).toBeCloseTo(once.scale, 9);
  expect(twice.centreX).toBeCloseTo(once.centreX, 9);
  let view = whole;
  for (let step = 0; step < 60; step += 1) view = glided(view, close, 1000 / 60);
  expect(view).toBe(close);
});
