import { expect, test } from 'vitest';
import { newRemark } from './remarks.ts';

const said = (text: string, name = 'Ada') => newRemark.parse({ id: 'remark-0001', name, point: null, text });

/** The characters of Unicode Standard Annex #9, sections 2.1 to 2.4, by their code points. */
test('what would turn the words behind it about is no text; letters that run from right to left are', () => {
  for (const code of [0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069])
    expect(said(`so${String.fromCodePoint(code)}gnp`).text).toBe('sognp');
  expect(said('fine', 'Ada\u202e').name).toBe('Ada');
  expect(said('\u05e9\u05dc\u05d5\u05dd\u200f!').text).toBe('\u05e9\u05dc\u05d5\u05dd\u200f!');
});
