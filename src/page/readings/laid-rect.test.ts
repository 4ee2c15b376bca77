import { expect, test } from 'vitest';
import { fittedRect } from './laid-rect.ts';

const picture = { left: 10, top: 20, width: 600, height: 400 };

test('a reference of another shape keeps it, fills the picture and lies middle on middle', () => {
  expect(fittedRect(picture, { width: 100, height: 100 })).toEqual({
    left: 110,
    top: 20,
    width: 400,
    height: 400,
  });
  expect(fittedRect(picture, { width: 200, height: 100 })).toEqual({
    left: 10,
    top: 70,
    width: 600,
    height: 300,
  });
});

test('one of the same shape, but for whole pixels, lies on the picture to the pixel', () => {
  expect(fittedRect(picture, { width: 1920, height: 1281 })).toEqual(picture);
});
