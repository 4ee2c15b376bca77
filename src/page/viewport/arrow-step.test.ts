import { expect, test } from 'vitest';
import { arrowStep } from './arrow-step.ts';

// Common practice, no source: an arrow is the small step, with Shift it goes ten times as far.
test.each([
  ['ArrowLeft', false, undefined, [-0.005, 0]],
  ['ArrowDown', true, undefined, [0, 0.05]],
  ['ArrowUp', false, 0.001, [0, -0.001]],
  ['ArrowRight', true, 0.001, [0.01, 0]],
  ['Enter', true, 0.001, [0, 0]],
] as const)('%s, with Shift %s, a step of %s goes %j', (key, shiftKey, share, expected) => {
  const [right, down] = arrowStep({ key, shiftKey }, share);
  expect(right).toBeCloseTo(expected[0], 12);
  expect(down).toBeCloseTo(expected[1], 12);
});
