import { expect, test } from 'vitest';
import { cropIn, cropOfDelivery, cropValue, deliveryChoices, shapeChoices } from './crop-choice.ts';

const landscape = { widthPx: 600, heightPx: 400 };

test('the deliveries that the job names are offered by their titles, once each; names nobody knows are none', () => {
  const offered = deliveryChoices({ deliveries: ['web-shop', 'Print', 'print', 'for the aunt'] });
  expect(offered.map(({ title, crop }) => [title, crop])).toEqual([
    ['Web shop, square', { delivery: 'web-shop' }],
    ['Print', { delivery: 'print' }],
  ]);
  expect(deliveryChoices(null)).toEqual([]);
});

test('a shape cuts the middle out of the picture: a square of 600 by 400 is 400 wide', () => {
  expect(cropIn({ width: 1, height: 1 }, landscape)).toEqual({
    left: expect.closeTo(1 / 6, 12),
    top: 0,
    width: expect.closeTo(400 / 600, 12),
    height: 1,
  });
});

test('a delivery of an exact size cuts its shape out: 300 by 300 of 600 by 400 is the middle 400, also where it is shown smaller', () => {
  const exact = { kind: 'exact', widthPx: 300, heightPx: 300, fillPercent: null } as const;
  const wish = { size: exact, enlarge: false, background: { kind: 'as-photographed' } } as const;
  for (const scale of [1, 0.5]) {
    const picture = { widthPx: 600 * scale, heightPx: 400 * scale };
    expect(cropOfDelivery(wish, picture)).toEqual({
      left: expect.closeTo(1 / 6, 2),
      top: 0,
      width: expect.closeTo(2 / 3, 2),
      height: 1,
    });
  }
  const white = { kind: 'white', leastCode: 250, darkPercentMax: 0, extend: true } as const;
  expect(cropOfDelivery({ ...wish, background: white }, landscape)).toBeNull();
});

test('a delivery that puts white around the picture, or takes every pixel, cuts nothing; nor does one nobody knows', () => {
  for (const delivery of ['web-shop', 'print', 'social', 'for the aunt'])
    expect(cropIn({ delivery }, landscape)).toBeNull();
  expect(cropIn(null, landscape)).toBeNull();
});

test('each choice is found again by its value', () => {
  for (const { value, crop } of [...shapeChoices, ...deliveryChoices({ deliveries: ['print'] })])
    expect(cropValue(crop)).toBe(value);
  expect(cropValue(null)).toBe('');
});
