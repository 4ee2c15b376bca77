import { expect, test } from 'vitest';
import { markOfXmpRating, marks, markToXmpRating } from './mark.ts';

test('each mark comes back from its own rating', () => {
  for (const mark of marks) expect(markOfXmpRating(markToXmpRating[mark])).toBe(mark);
});

/** xmp:Rating is a closed choice of -1 and the real numbers from 0 to 5 (ISO 16684-1:2019, 8.4). */
test.each([
  [1, 'alternate'],
  [3, 'alternate'],
  [3.9, 'alternate'],
  [4.5, 'select'],
  [0.5, 'none'],
  [-1, 'out'],
])('a rating of %f, which others write, means %s', (rating, mark) => {
  expect(markOfXmpRating(rating)).toBe(mark);
});

test.each([-2, -0.5, 5.1, Number.NaN, Number.POSITIVE_INFINITY])('%f is no rating', (rating) => {
  expect(markOfXmpRating(rating)).toBeNull();
});
