import { expect, test } from 'vitest';
import { edgePhrase } from '../../../words/index.ts';
import { withMovementPx } from './with-movement.ts';

const moved = (px: number) => ({
  findings: [{ code: 'sharp.moved', args: { px, lengthPx: 7.5, degrees: 90 } }],
});

test('an edge along a movement does not contradict the verdict: what was added to it is said', () => {
  expect(withMovementPx(moved(5.7), 1.4)).toBe(5.7);
  expect(edgePhrase(1.4, 2.8, 5.7)).toBe(
    'From 10 to 90 % of the light in 1.4 px; up to 2.8 px is sharp (grey). This edge lies along the movement; with it the verdict counts 5.7 px.',
  );
});

test('an edge that shows the movement, and a verdict without one, add nothing', () => {
  expect(withMovementPx(moved(5.7), 5.4)).toBeNull();
  expect(withMovementPx({ findings: [{ code: 'sharp.soft', args: { px: 5.7 } }] }, 1.4)).toBeNull();
  expect(edgePhrase(1.4, 2.8, null)).not.toContain('movement');
});
