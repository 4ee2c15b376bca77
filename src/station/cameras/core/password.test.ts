import { expect, test } from 'vitest';
import { asTyped, passwordFromBytes, passwordLength } from './password.ts';

const lettersOf256 = Array.from({ length: 256 }, (_, byte) =>
  passwordFromBytes(new Uint8Array(passwordLength).fill(byte))?.charAt(0),
).filter((letter) => letter !== undefined);

test('a password holds at least 60 bits, in letters of one case that look like no other', () => {
  const letters = new Set(lettersOf256);
  // Entropy of a uniform choice: length * log2(letters), Shannon 1948. 17 letters, 16 of them: 65.40 bits.
  expect(passwordLength * Math.log2(letters.size)).toBeCloseTo(65.4, 1);
  expect(passwordLength * Math.log2(letters.size)).toBeGreaterThanOrEqual(60);
  expect([...letters].join('')).toMatch(/^[a-z]+$/);
  expect([...letters].join('')).not.toMatch(/[lioqvaeuy]/);
});

test('a password is read in whole groups of four', () => {
  expect(passwordLength % 4).toBe(0);
});

test('every letter comes equally often', () => {
  const counts = new Map<string, number>();
  for (const letter of lettersOf256) counts.set(letter, (counts.get(letter) ?? 0) + 1);
  expect([...counts.values()]).toEqual(Array(17).fill(15));
});

test('too few usable bytes give no password rather than a short one', () => {
  expect(passwordFromBytes(new Uint8Array(100).fill(255))).toBeNull();
  expect(passwordFromBytes(new Uint8Array(passwordLength - 1))).toBeNull();
});

test('gaps and capitals of a password of ours are no mistake; of one that somebody chose each letter counts', () => {
  const ours = 'kmwtrhbfxpzdctgn';
  expect(asTyped(ours, 'Kmwt rhbf xpzd ctgn')).toBe(ours);
  expect(asTyped(ours, 'KMWT-RHBF-XPZD-CTGN')).toBe(ours);
  expect(asTyped(ours, 'kmwt.rhbf xpzd ctgn')).not.toBe(ours);
  for (const theirs of ['Right', 'right', 'kmwtrhbfxpzdctga', 'kmwtrhbfxpzdctg', '']) {
    expect(asTyped(theirs, theirs), theirs).toBeNull();
  }
});
