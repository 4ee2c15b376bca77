import { expect, test } from 'vitest';
import { type ExrPicture, encodeExr } from './exr.ts';
import { fromHalves, toHalves } from './kernels/half-floats.ts';
import { readExr } from './read-exr.ts';

test('numbers become half floats as IEEE 754-2008 says', () => {
  // IEEE 754-2008, table 3.5 and the examples usual for binary16: one, two, a third, the largest, the smallest normal and
  // subnormal; 2049 and 2051 lie half way between neighbours, and go to the even one (4.3.1).
  const cases: readonly (readonly [number, number])[] = [
    [0, 0x0000],
    [1, 0x3c00],
    [-2, 0xc000],
    [1 / 3, 0x3555],
    [65_504, 0x7bff],
    [2 ** -14, 0x0400],
    [2 ** -24, 0x0001],
    [-(2 ** -24), 0x8001],
    [2 ** -25, 0x0000],
    [3 * 2 ** -25, 0x0002],
    [2049, 0x6800],
    [2051, 0x6802],
    [1e9, 0x7bff],
    [Number.NEGATIVE_INFINITY, 0xfbff],
    [Number.NaN, 0],
  ];
  const out = new Uint16Array(cases.length);
  toHalves(
    Float32Array.from(cases, ([value]) => value),
    0,
    cases.length,
    out,
    0,
  );
  expect([...out].map((bits) => bits.toString(16))).toEqual(cases.map(([, bits]) => bits.toString(16)));
});

test('each finite half float comes back as the same bits, with the value its fields say', () => {
  const bits = Uint16Array.from({ length: 65_536 }, (_, index) => index).filter(
    (each) => ((each >> 10) & 31) !== 31 && each !== 0x8000,
  );
  const values = new Float32Array(bits.length);
  fromHalves(bits, 0, bits.length, values, 0);
  bits.forEach((each, index) => {
    const [sign, exponent, fraction] = [each >> 15 ? -1 : 1, (each >> 10) & 31, each & 1023];
    // IEEE 754-2008, 3.4.
    const said = exponent === 0 ? fraction * 2 ** -24 : (1 + fraction / 1024) * 2 ** (exponent - 15);
    if (values[index] !== sign * said) throw new Error(`${each}: ${values[index]}`);
  });
  const again = new Uint16Array(bits.length);
  toHalves(values, 0, values.length, again, 0);
  expect(again).toEqual(bits);
});

const primaries = [0.708, 0.292, 0.17, 0.797, 0.131, 0.046, 0.3127, 0.329] as const;

const picture: ExrPicture = {
  widthPx: 2,
  heightPx: 2,
  halves: Uint16Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12),
  leftPx: 4,
  topPx: 6,
  whole: { widthPx: 20, heightPx: 30 },
  notes: { fullWidth: 20, light: 'raw' },
};

test('the file is laid out as the OpenEXR File Layout says', () => {
  const bytes = encodeExr(picture, primaries);
  const view = new DataView(bytes.buffer);
  const letters = (from: number, count: number): string =>
    String.fromCharCode(...bytes.subarray(from, from + count));
  // "Magic number" 76 2f 31 01, "Version field" 2 without flags.
  expect([...bytes.subarray(0, 8)]).toEqual([0x76, 0x2f, 0x31, 0x01, 2, 0, 0, 0]);
  // The first attribute: name, type, size, and three channels of 18 bytes with their names, a null at the end.
  expect(letters(8, 16)).toBe('channels\0chlist\0');
  expect(view.getInt32(24, true)).toBe(55);
  expect(letters(28, 2)).toBe('B\0');
  expect(view.getInt32(30, true)).toBe(1);
  // All that the standard requires of a single part of scan lines.
  const head = letters(0, bytes.length);
  for (const name of [
    'chromaticities\0chromaticities\0',
    'compression\0compression\0\x01\0\0\0\0',
    'dataWindow\0box2i\0',
    'displayWindow\0box2i\0',
    'lineOrder\0lineOrder\0',
    'pixelAspectRatio\0float\0',
    'screenWindowCenter\0v2f\0',
    'screenWindowWidth\0float\0',
  ])
    expect(head, name).toContain(name);
  const dataAt = head.indexOf('dataWindow\0box2i\0') + 17 + 4;
  expect([0, 4, 8, 12].map((by) => view.getInt32(dataAt + by, true))).toEqual([4, 6, 5, 7]);
  // "Line offset table", then each line: its y, its size, all of B, all of G, all of R.
  const linesAt = bytes.length - 2 * (8 + 12);
  expect(Number(view.getBigUint64(linesAt - 16, true))).toBe(linesAt);
  expect([view.getInt32(linesAt, true), view.getInt32(linesAt + 4, true)]).toEqual([6, 12]);
  expect([0, 2, 4, 6, 8, 10].map((by) => view.getUint16(linesAt + 8 + by, true))).toEqual([3, 6, 2, 5, 1, 4]);
});

test('a file that was written is read back; one that is cut or another is none', () => {
  const bytes = encodeExr(picture, primaries);
  expect(readExr(bytes)).toEqual(picture);
  for (let end = 0; end < bytes.length; end++) expect(readExr(bytes.subarray(0, end))).toBeNull();
  expect(readExr(Uint8Array.from(bytes, (byte, at) => (at === 0 ? 0 : byte)))).toBeNull();
});
