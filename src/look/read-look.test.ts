import { expect, test } from 'vitest';
import { lookHash } from './look-hash.ts';
import { defaultLook, neutralLook } from './looks.ts';
import { lookTextMax, readLook, readLookText } from './read-look.ts';
import { bandsMax } from './schema.ts';

const codes = (document: unknown): readonly string[] => {
  const read = readLook(document);
  return read.look === null ? read.findings.map(({ code }) => code) : [];
};

test('what is left out of a look is neutral', () => {
  const read = readLook({ version: 2, title: 'Bare' });
  expect(read.look).toEqual({ ...neutralLook, title: 'Bare', description: '' });
});

test('a look of version 1 is lifted: the same picture, with every member of version 2', () => {
  const old = {
    version: 1,
    title: 'Plain',
    description: 'As it was.',
    exposureEv: 0,
    curve: { pivot: 0.18, gamma: 1.3, toeEv: 4, shoulder: 1, whiteEv: 3 },
  };
  const read = readLook(old);
  if (read.look === null) throw new Error('a look of version 1 is read');
  expect(read.versionRead).toBe(1);
  expect(lookHash(read.look)).toBe(lookHash(defaultLook));
  expect(codes({ ...old, curve: { ...old.curve, gamma: 9 } })).toEqual(['look.too-large']);
  expect(codes({ ...old, flare: 0 })).toEqual(['look.bad-old-version']);
  const wrong = readLook({ version: 1, title: 'x', exposureEv: 1, flare: 0 });
  expect(wrong.look === null ? wrong.findings[0]?.args : null).toEqual({
    version: 1,
    members: 'description, curve, flare',
  });
});

test('what is no look is refused by a code that says what is wrong', () => {
  expect(codes(null)).toEqual(['look.no-look']);
  expect(codes([])).toEqual(['look.no-look']);
  expect(codes({ version: '2' })).toEqual(['look.no-look']);
  expect(codes({ version: 3, title: 'New' })).toEqual(['look.newer-version']);
  expect(codes({ ...defaultLook, exposureEv: -6 })).toEqual(['look.too-small']);
  expect(codes({ ...defaultLook, warmth: 1 })).toEqual(['look.unknown-member']);
  expect(codes({ ...defaultLook, grain: { sizePx: 'large' } })).toEqual(['look.wrong-kind']);
  expect(codes({ ...defaultLook, balance: { from: 'camera' } })).toEqual(['look.unknown-choice']);
});

test('a finding names the member, as its path', () => {
  const read = readLook({ ...defaultLook, bands: [{ hueDeg: 10 }, { hueDeg: 400 }] });
  expect(read.look === null ? read.findings[0]?.args : null).toEqual({
    member: 'bands.1.hueDeg',
    min: 0,
    max: 360,
    value: 400,
  });
});

test('lists and texts are bounded, on both sides of each bound', () => {
  const bands = (count: number) => Array.from({ length: count }, () => ({ hueDeg: 10 }));
  expect(codes({ ...defaultLook, bands: bands(bandsMax) })).toEqual([]);
  expect(codes({ ...defaultLook, bands: bands(bandsMax + 1) })).toEqual(['look.too-large']);
  const text = JSON.stringify(defaultLook);
  expect(readLookText(text.padEnd(lookTextMax)).look).toEqual(defaultLook);
  expect(readLookText(text.padEnd(lookTextMax + 1)).look).toBeNull();
  expect(readLookText('{"version": 2,').look).toBeNull();
  expect(readLookText('['.repeat(lookTextMax)).look).toBeNull();
  const wrong = Object.fromEntries(Array.from({ length: 40 }, (_, index) => [`m${index}`, index]));
  expect(codes({ ...defaultLook, grain: wrong, acutance: wrong, tint: wrong }).length).toBeLessThanOrEqual(
    10,
  );
});

test('two lines that could not set a perspective are refused', () => {
  const withLines = (lines: unknown) => codes({ ...defaultLook, geometry: { lines } });
  const upright = [0.2, 0.1, 0.25, 0.9];
  expect(withLines([upright, [0.8, 0.1, 0.75, 0.9]])).toEqual([]);
  expect(withLines([upright, [0.8, 0.1, 0.81, 0.1]])).toEqual(['look.line-too-short']);
  expect(withLines([upright])).not.toEqual([]);
});
