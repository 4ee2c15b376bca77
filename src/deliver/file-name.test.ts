import { expect, test } from 'vitest';
import { nameKey, safeStem } from './file-name.ts';

/** "Naming Files, Paths, and Namespaces", Microsoft Learn: reserved characters, names of devices, ends of names. From memory. */
const refusedByWindows = ['<', '>', ':', '"', '/', '\\', '|', '?', '*'];
const devices = ['CON', 'PRN', 'AUX', 'NUL', 'COM1', 'COM9', 'LPT1', 'LPT9', 'COM¹', 'LPT³'];

test('no character that Windows refuses is left in a name', () => {
  for (const each of refusedByWindows) expect(safeStem(`a${each}b`, '.jpg'), each).toBe('a-b');
  for (let code = 0; code < 32; code++) {
    const said = safeStem(`a${String.fromCharCode(code)}b`, '.jpg');
    expect(
      [...said].every((character) => character.charCodeAt(0) >= 32),
      String(code),
    ).toBe(true);
  }
});

test('a name of a device is none any more, whatever follows it', () => {
  for (const device of devices) {
    for (const name of [device, device.toLowerCase(), `${device}.tar`]) {
      expect(safeStem(name, '.jpg'), name).toBe(`_${name}`);
    }
  }
  expect(safeStem('CONTACT', '.jpg')).toBe('CONTACT');
  expect(safeStem('COM10', '.jpg')).toBe('COM10');
});

test('a name neither begins nor ends with a dot or a space, and one with nothing left has one', () => {
  expect(safeStem(' ..Tea pot. . ', '.jpg')).toBe('Tea pot');
  for (const name of ['', '...', ' ', '\u200b']) expect(safeStem(name, '.jpg')).toBe('picture');
});

test('characters that turn the direction of writing or cannot be seen are gone', () => {
  expect(safeStem('tea\u202egpj.exe', '.jpg')).toBe('teagpj.exe');
  expect(safeStem('a\u200bb\ufeffc', '.jpg')).toBe('abc');
});

test('a name fits into its bytes, whole characters only', () => {
  const name = safeStem('茶'.repeat(100), '.jpeg', 200);
  expect(name).toBe('茶'.repeat(65));
  expect(new TextEncoder().encode(`${name}.jpeg`).length).toBe(200);
  expect(safeStem('😀'.repeat(2), '', 7)).toBe('😀');
});

/** UAX 15, Figure 3 and 4: one character in two forms. */
test('names that differ in Unicode form only are one', () => {
  expect(nameKey('\u00c5.jpg')).toBe(nameKey('A\u030a.jpg'));
  expect(nameKey('\u00c5.jpg')).toBe(nameKey('\u212b.jpg'));
  expect(safeStem('e\u0301', '.jpg')).toBe('\u00e9');
});

/** Simple case folding is that of a regular expression with the flags i and u (ECMA-262, Canonicalize; CaseFolding.txt). */
test('names that differ in case only are one, for every character of the basic plane', () => {
  const apart: string[] = [];
  for (let code = 0x21; code < 0xd800; code++) {
    const character = String.fromCodePoint(code);
    if (/[\\^$.*+?()[\]{}|/]/.test(character)) continue;
    const same = new RegExp(`^${character}$`, 'iu');
    for (const other of [character.toUpperCase(), character.toLowerCase()]) {
      if (same.test(other) && nameKey(character) !== nameKey(other)) apart.push(character + other);
    }
  }
  expect(apart).toEqual([]);
  expect(nameKey('STRASSE')).toBe(nameKey('straße'));
  expect(nameKey('ΟΔΟΣ')).toBe(nameKey('οδος'));
  expect(nameKey('a')).not.toBe(nameKey('b'));
});
