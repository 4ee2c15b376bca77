import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { canonicalJson } from './canonical-json.ts';
import { lookHash } from './look-hash.ts';
import { defaultLook, neutralLook } from './looks.ts';
import { lookSchema } from './schema.ts';
import { sha256Hex } from './sha256.ts';

test('SHA-256 gives the examples of FIPS 180-4', () => {
  // NIST, "Cryptographic Standards and Guidelines, Example Values", SHA-256.
  expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  expect(sha256Hex('')).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
  expect(sha256Hex('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  );
});

test('SHA-256 of any text is what the platform computes, at every length around a block border', () => {
  const platform = (text: string): string => createHash('sha256').update(text).digest('hex');
  for (let length = 50; length < 135; length++) {
    expect(sha256Hex('x'.repeat(length))).toBe(platform('x'.repeat(length)));
  }
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      expect(sha256Hex(text)).toBe(platform(text));
    }),
  );
});

test('canonical JSON is that of RFC 8785, 3.2.3 (sorting) and 3.2.2.3 (numbers)', () => {
  const example = {
    '\u20ac': 'Euro Sign',
    '\r': 'Carriage Return',
    '\ufb33': 'Hebrew Letter Dalet With Dagesh',
    '1': 'One',
    '\ud83d\ude00': 'Emoji: Grinning Face',
    '\u0080': 'Control',
    '\u00f6': 'Latin Small Letter O With Diaeresis',
  };
  const order = [...canonicalJson(example).matchAll(/:"([A-Za-z: ]+)"/g)].map((match) => match[1]);
  expect(order).toEqual([
    'Carriage Return',
    'One',
    'Control',
    'Latin Small Letter O With Diaeresis',
    'Euro Sign',
    'Emoji: Grinning Face',
    'Hebrew Letter Dalet With Dagesh',
  ]);
  const numbers = JSON.parse('[333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001]');
  expect(canonicalJson(numbers)).toBe('[333333333.3333333,1e+30,4.5,0.002,1e-27]');
  expect(canonicalJson([null, true, false, {}, []])).toBe('[null,true,false,{},[]]');
});

test('what changes a pixel changes the hash; a title does not', () => {
  expect(lookHash(defaultLook)).toMatch(/^[0-9a-f]{64}$/);
  expect(lookHash({ ...defaultLook, title: 'Other' })).toBe(lookHash(defaultLook));
  expect(lookHash({ ...defaultLook, exposureEv: 0.1 })).not.toBe(lookHash(defaultLook));
  expect(lookHash(neutralLook)).not.toBe(lookHash(defaultLook));
});

test('a look keeps its hash on its way through JSON, whatever the order of its members', () => {
  const shuffled = JSON.parse(JSON.stringify(defaultLook), (_, member) =>
    typeof member === 'object' && member !== null && !Array.isArray(member)
      ? Object.fromEntries(Object.entries(member).reverse())
      : member,
  );
  expect(Object.keys(shuffled)).toEqual(Object.keys(defaultLook).reverse());
  expect(lookHash(lookSchema.parse(shuffled))).toBe(lookHash(defaultLook));
});

test.each([
  ['an unknown member', { ...defaultLook, warmth: 1 }],
  ['another version', { ...defaultLook, version: 3 }],
  ['exposure beyond 5 stops', { ...defaultLook, exposureEv: 5.01 }],
  ['an empty title', { ...defaultLook, title: ' ' }],
  ['a title of 81 characters', { ...defaultLook, title: 'x'.repeat(81) }],
  ['a number that is none', { ...defaultLook, exposureEv: Number.NaN }],
])('a look with %s is refused', (_, look) => {
  expect(lookSchema.safeParse(look).success).toBe(false);
});

test.each([
  ['exposure of 5 stops', { ...defaultLook, exposureEv: 5 }],
  ['a title of 80 characters', { ...defaultLook, title: 'x'.repeat(80) }],
])('a look with %s is accepted', (_, look) => {
  expect(lookSchema.safeParse(look).success).toBe(true);
});
