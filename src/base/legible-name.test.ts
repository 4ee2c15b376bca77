import { expect, test } from 'vitest';
import { legibleName } from './legible-name.ts';

test('bytes that are no UTF-8 are read as Windows-1252 (WHATWG Encoding, index windows-1252)', () => {
  // "grün" and "€": FC is 252 in Latin-1 too, 80 only in Windows-1252.
  expect(legibleName('gr\uEFFCn.jpg')).toBe('grün.jpg');
  expect(legibleName('\uEF80 5.jpg')).toBe('€ 5.jpg');
  expect(legibleName('\uEF9F\uEF81\uEFA0')).toBe('Ÿ\ufffd\u00a0');
});

test('any other name stays as it is', () => {
  expect(legibleName('grün 図 \uE000.jpg')).toBe('grün 図 \uE000.jpg');
});
