import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cleanText, textCharactersMax } from './text.ts';

test.each([
  ['  60 mm  f/2.8 \0\0', '60 mm f/2.8'],
  ['line\r\nbreak\u2028and\ttab', 'line break and tab'],
  ['\u001b[31mred', '[31mred'],
  ['abc\u202egnp.exe', 'abcgnp.exe'],
  ['zero\u200bwidth\ufeff', 'zerowidth'],
  ['Objektiv für Töpfe 蔵', 'Objektiv für Töpfe 蔵'],
  ['\0\0\0', undefined],
  ['   ', undefined],
  [undefined, undefined],
])('%j becomes %j', (text, clean) => {
  expect(cleanText(text)).toBe(clean);
});

test('text keeps its first 120 characters, counted as characters', () => {
  expect(cleanText('x'.repeat(120))).toHaveLength(textCharactersMax);
  expect(cleanText('x'.repeat(121))).toHaveLength(textCharactersMax);
  expect([...(cleanText('\u{1f4f7}'.repeat(200)) ?? '')]).toHaveLength(textCharactersMax);
});

test('whatever comes in, what goes out is short, trimmed and free of control characters', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 700 }), (text) => {
      const clean = cleanText(text) ?? 'x';
      expect([...clean].length).toBeLessThanOrEqual(textCharactersMax);
      expect(clean).toBe(clean.trim());
      expect(clean).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/u);
      expect(cleanText(clean)).toBe(clean);
    }),
    { numRuns: 500 },
  );
});
