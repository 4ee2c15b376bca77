import { expect, test } from 'vitest';
import { sharpenGrey } from './sharpen-grey.ts';

const [widthPx, heightPx] = [9, 7];
const picture = (value: (x: number, y: number) => number): Uint8Array =>
  Uint8Array.from({ length: widthPx * heightPx }, (_, n) => value(n % widthPx, Math.floor(n / widthPx)));

test('an even picture, and an even slope, stay as they are', () => {
  const even = picture(() => 90);
  expect(sharpenGrey({ data: even, widthPx, heightPx }).data).toEqual(even);
  const slope = picture((x, y) => 40 + 10 * x + 4 * y);
  expect(sharpenGrey({ data: slope, widthPx, heightPx }).data).toEqual(slope);
});

test('an edge gets steeper by what the mask says, by hand', () => {
  const edge = picture((x) => (x < 4 ? 100 : 116));
  const { data } = sharpenGrey({ data: edge, widthPx, heightPx });
  // The binomial's shares of the far side: 5/16 at the pixel beside the edge, 1/16 at the next; 16 times them is 5 and 1.
  expect([...data.subarray(3 * widthPx + 2, 3 * widthPx + 6)]).toEqual([97, 85, 131, 119]);
});

test('a picture smaller than the mask comes back as it was', () => {
  const data = Uint8Array.from([1, 2, 3, 4]);
  expect(sharpenGrey({ data, widthPx: 2, heightPx: 2 }).data).toEqual(data);
});
