import { expect, test } from 'vitest';
import { begun, type Drawing, ended, givenUp, lineOf, moved, undrawn } from './drawing-lines.ts';

const drawn = (
  drawing: Drawing,
  from: readonly [number, number],
  to: readonly [number, number],
  by: 'keys' | 'pointer' = 'pointer',
) => ended(moved(begun(moved(drawing, from)), to), by);

test('two lines are drawn end by end, and both are there once the second ends', () => {
  const one = drawn(undrawn, [0.3, 0.2], [0.34, 0.8]);
  expect(one.lines).toBeNull();
  expect(one.drawing.first).toEqual([0.3, 0.2, 0.34, 0.8]);
  const both = drawn(one.drawing, [0.7, 0.2], [0.66, 0.8]);
  expect(both.lines).toEqual([
    [0.3, 0.2, 0.34, 0.8],
    [0.7, 0.2, 0.66, 0.8],
  ]);
  expect(both.drawing).toEqual(undrawn);
});

test('a line shorter than the schema takes is none, and the cross stays inside the picture', () => {
  const short = drawn(undrawn, [0.5, 0.5], [0.5, 0.55]);
  expect(short).toEqual({
    drawing: { first: null, start: null, at: [0.5, 0.55], tooShort: true },
    lines: null,
  });
  expect(moved(undrawn, [-0.2, 1.4]).at).toEqual([0, 1]);
});

test('by keys a line that is too short is told and goes on: its end is set again further away', () => {
  const short = drawn(undrawn, [0.5, 0.5], [0.5, 0.51], 'keys').drawing;
  expect(short).toMatchObject({ start: [0.5, 0.5], tooShort: true });
  const further = moved(short, [0.5, 0.8]);
  expect(further.tooShort).toBe(false);
  expect(ended(further, 'keys').drawing.first).toEqual([0.5, 0.5, 0.5, 0.8]);
});

test('what is given up is the line on the way, then the one before it, then the drawing itself', () => {
  const { drawing } = drawn(undrawn, [0.3, 0.2], [0.34, 0.8]);
  const second = begun(moved(drawing, [0.7, 0.2]));
  expect(lineOf(second)).toEqual([0.7, 0.2, 0.7, 0.2]);
  const one = givenUp(second);
  expect(one).toMatchObject({ first: [0.3, 0.2, 0.34, 0.8], start: null });
  const none = one === null ? null : givenUp(one);
  expect(none).toMatchObject({ first: null, start: null });
  expect(none === null ? null : givenUp(none)).toBeNull();
});
