import { expect, test } from 'vitest';
import { swipeCssPxMin, swipeMsMax, swipeStep } from './swipe.ts';

const from = { xCssPx: 200, yCssPx: 300, atMs: 1000 };
const to = (across: number, along = 0, ms = 200) => ({
  xCssPx: from.xCssPx + across,
  yCssPx: from.yCssPx + along,
  atMs: from.atMs + ms,
});

test('to the left is later, to the right is earlier', () => {
  expect(swipeStep(from, to(-80))).toBe(1);
  expect(swipeStep(from, to(80))).toBe(-1);
});

test('a tap, a finger that rests and one that goes up or down mean nothing', () => {
  expect(swipeStep(from, to(swipeCssPxMin - 1))).toBeNull();
  expect(swipeStep(from, to(swipeCssPxMin))).toBe(-1);
  expect(swipeStep(from, to(80, 0, swipeMsMax))).toBe(-1);
  expect(swipeStep(from, to(80, 0, swipeMsMax + 1))).toBeNull();
  expect(swipeStep(from, to(60, 60))).toBeNull();
});
