import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bytesToText, textToBytes } from './name-bytes.ts';

test('3.3 valid UTF-8 reads as the platform reads it (WHATWG Encoding, fatal decoder)', () => {
  const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (text) => {
      const bytes = new TextEncoder().encode(text);
      expect(bytesToText(bytes)).toBe(strict.decode(bytes));
    }),
  );
});

test('3.3 bytes that are no UTF-8 become one private character each', () => {
  // Ill-formed after the Unicode Standard, table 3-7: a lone continuation, an overlong slash, a surrogate, past U+10FFFF.
  expect(bytesToText(Uint8Array.of(0x80))).toBe('\uef80');
  expect(bytesToText(Uint8Array.of(0xc0, 0xaf))).toBe('\uefc0\uefaf');
  expect(bytesToText(Uint8Array.of(0xed, 0xa0, 0x80))).toBe('\uefed\uefa0\uef80');
  expect(bytesToText(Uint8Array.of(0xf4, 0x90, 0x80, 0x80))).toBe('\ueff4\uef90\uef80\uef80');
  expect(bytesToText(Uint8Array.of(0x41, 0xe9))).toBe('A\uefe9');
});

test('3.3 the private characters themselves, sent as UTF-8, are told from the bytes they stand for', () => {
  const sent = new TextEncoder().encode('\uefe9');
  expect(bytesToText(sent)).not.toBe(bytesToText(Uint8Array.of(0xe9)));
  expect(textToBytes(bytesToText(sent))).toEqual(sent);
});

test('3.3 any bytes come back as they were, so no two names fall together', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
      expect(textToBytes(bytesToText(bytes))).toEqual(bytes);
    }),
    { numRuns: 3000 },
  );
});

test('3.3 no bytes make text that cannot be stored as UTF-8', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
      expect(bytesToText(bytes)).not.toMatch(/\p{Surrogate}/u);
    }),
  );
});
