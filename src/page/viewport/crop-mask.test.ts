import { expect, test } from 'vitest';
import { copySpaceIn, cropOf } from './crop-mask.ts';

const picture = { widthPx: 6000, heightPx: 4000 };

test('a crop is the largest of its shape in the middle of the picture', () => {
  // 4000 of 6000 px across; 6000 px at 16 : 9 are 3375 of 4000 px high.
  const square = cropOf(picture, 1);
  expect([square.left, square.width]).toEqual([expect.closeTo(1 / 6, 12), expect.closeTo(2 / 3, 12)]);
  expect([square.top, square.height]).toEqual([0, 1]);
  expect(cropOf(picture, 16 / 9)).toEqual({ left: 0, top: (1 - 0.84375) / 2, width: 1, height: 0.84375 });
  expect(cropOf(picture, 3 / 2)).toEqual({ left: 0, top: 0, width: 1, height: 1 });
});

test('the space for words is its share of the crop, at its side', () => {
  const crop = cropOf(picture, 1);
  const right = copySpaceIn(crop, { side: 'right', sharePercent: 100 / 3 });
  expect(right.width).toBeCloseTo(2 / 9, 12);
  expect(right.left + right.width).toBeCloseTo(crop.left + crop.width, 12);
  const top = copySpaceIn(crop, { side: 'top', sharePercent: 25 });
  expect(top).toEqual({ left: crop.left, top: 0, width: crop.width, height: 0.25 });
});
