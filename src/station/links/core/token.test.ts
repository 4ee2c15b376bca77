import { expect, test } from 'vitest';
import { groupedToken, parseToken, tokenFromBytes, tokenLength } from './token.ts';

const bytes = (...values: number[]): Uint8Array =>
  Uint8Array.from({ length: 64 }, (_, at) => values[at % values.length] ?? 0);

test('a token holds at least 128 bits (RFC 4086 section 8.2 asks for as many against guessing off line, from memory)', () => {
  expect(tokenLength * Math.log2(31)).toBeGreaterThan(128);
  expect(tokenFromBytes(bytes(0, 30))).toBe('a9'.repeat(14));
});

test('bytes that would favour the first letters are passed over, too few bytes give nothing', () => {
  expect(tokenFromBytes(bytes(248, 255, 1))).toBeNull();
  expect(tokenFromBytes(bytes(247, 255))).toBe('9'.repeat(tokenLength));
});

test('what is shown is read back, and what is no token is none', () => {
  const token = tokenFromBytes(bytes(1, 2, 3)) ?? '';
  expect(groupedToken(token)).toMatch(/^([a-z2-9]{4}-){6}[a-z2-9]{4}$/);
  expect(parseToken(groupedToken(token).toUpperCase())).toBe(token);
  for (const wrong of ['', token.slice(1), `${token}a`, `0${token.slice(1)}`, `../${token}`])
    expect(parseToken(wrong)).toBeNull();
});
