import { expect, test } from 'vitest';
import { cropValue, deliveryChoices, shapeChoices } from './crop-choice.ts';

test('the deliveries that the job names are offered by their titles, once each; names nobody knows are none', () => {
  const offered = deliveryChoices({ deliveries: ['web-shop', 'Print', 'print', 'for the aunt'] });
  expect(offered.map(({ title, crop }) => [title, crop])).toEqual([
    ['Web shop, square', { delivery: 'web-shop' }],
    ['Print', { delivery: 'print' }],
  ]);
  expect(deliveryChoices(null)).toEqual([]);
});

test('each choice is found again by its value', () => {
  for (const { value, crop } of [...shapeChoices, ...deliveryChoices({ deliveries: ['print'] })])
    expect(cropValue(crop)).toBe(value);
  expect(cropValue(null)).toBe('');
});
