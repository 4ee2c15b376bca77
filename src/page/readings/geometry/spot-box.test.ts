import { expect, test } from 'vitest';
import { spotBox } from './spot-box.ts';

test('the spot is square on the picture and never leaves it', () => {
  const lying = spotBox(0.5, 0.5, 1.5);
  // 12 % of the height is 8 % of the width of a picture of 3:2.
  expect(lying.right - lying.left).toBeCloseTo(0.08, 9);
  expect(lying.bottom - lying.top).toBeCloseTo(0.12, 9);
  const upright = spotBox(0.5, 0.5, 2 / 3);
  expect(upright.right - upright.left).toBeCloseTo(0.12, 9);
  expect(upright.bottom - upright.top).toBeCloseTo(0.08, 9);
  expect(spotBox(0, 1, 1.5)).toMatchObject({ left: 0, bottom: 1 });
});
