import { expect, test } from 'vitest';
import { focusAreaOf } from './focus-area.ts';

const size = { pictureWidthPx: 6000, pictureHeightPx: 4000 };

test('a rectangle, a circle and a point are boxes about their middle (Exif 2.32, SubjectArea)', () => {
  expect(focusAreaOf([3000, 2000, 600, 400], size)).toEqual({
    left: 0.45,
    top: 0.45,
    right: 0.55,
    bottom: 0.55,
  });
  expect(focusAreaOf([3000, 2000, 1200], size)).toEqual({ left: 0.4, top: 0.35, right: 0.6, bottom: 0.65 });
  expect(focusAreaOf([3000, 2000], size)).toEqual({ left: 0.46, top: 0.44, right: 0.54, bottom: 0.56 });
  expect(focusAreaOf([10, 10, 600, 400], size)).toMatchObject({ left: 0, top: 0 });
});

test('what says nothing is nothing', () => {
  for (const area of [undefined, [], [5], [0, 0], [7000, 10], [Number.NaN, 3], [-5, 3]]) {
    expect(focusAreaOf(area, size)).toBeUndefined();
  }
  expect(focusAreaOf([3000, 2000], { pictureWidthPx: null, pictureHeightPx: null })).toBeUndefined();
});
