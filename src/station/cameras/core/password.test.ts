import { expect, test } from 'vitest';
import { passwordFromBytes, passwordLength } from './password.ts';

test('a password holds at least 60 bits and no look-alikes', () => {
  const letters = new Set<string>();
  for (let byte = 0; byte < 256; byte++) {
    const password = passwordFromBytes(new Uint8Array(passwordLength).fill(byte));
    if (password !== null) letters.add(password.charAt(0));
  }
  expect(passwordLength * Math.log2(letters.size)).toBeGreaterThan(60);
  expect([...letters].join('')).not.toMatch(/[01oliA-Z]/);
});

test('every letter comes equally often', () => {
  const counts = new Map<string, number>();
  for (let byte = 0; byte < 256; byte++) {
    const letter = passwordFromBytes(new Uint8Array(passwordLength).fill(byte))?.charAt(0);
    if (letter !== undefined) counts.set(letter, (counts.get(letter) ?? 0) + 1);
  }
  expect(new Set(counts.values()).size).toBe(1);
});

test('too few usable bytes give no password rather than a short one', () => {
  expect(passwordFromBytes(new Uint8Array(100).fill(255))).toBeNull();
  expect(passwordFromBytes(new Uint8Array(passwordLength - 1))).toBeNull();
});
