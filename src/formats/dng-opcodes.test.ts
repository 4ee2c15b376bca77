import fc from 'fast-check';
import { expect, test } from 'vitest';
import { opcodeList } from '../../test/render/opcode-writer.ts';
import { opcodeLimits, parseOpcodes } from './dng-opcodes.ts';

const warp = { id: 1, long: [1], double: [1, 0.1, 0, 0, 0.001, 0, 0.5, 0.5] };
const vignette = { id: 3, double: [0.5, 0, 0, 0, 0, 0.5, 0.5] };

test('a list is read in its order, each with its figures (DNG 1.7.1, chapter 7)', () => {
  const { opcodes, skipped, missed } = parseOpcodes(opcodeList([vignette, warp]));
  expect(opcodes).toEqual([
    { kind: 'fix-vignette-radial', k: [0.5, 0, 0, 0, 0], centre: [0.5, 0.5] },
    {
      kind: 'warp-rectilinear',
      planes: [
        {
          radial: [1, 0, 0.1, 0, 0, 0, 0],
          tangential: [0.001, 0],
          range: [0, Number.POSITIVE_INFINITY],
          isReciprocal: false,
        },
      ],
      centre: [0.5, 0.5],
    },
  ]);
  expect([skipped, missed]).toEqual([[], []]);
});

test('what is not known is skipped where it may be, and else told as missed', () => {
  const unknown = { id: 77, double: [1] };
  const { opcodes, skipped, missed } = parseOpcodes(
    opcodeList([unknown, { ...unknown, id: 78, isOptional: true }, vignette]),
  );
  expect(opcodes).toHaveLength(1);
  expect([skipped, missed]).toEqual([[78], [77]]);
});

test('areas, bad pixels and maps of gains are read', () => {
  const area = [1, 2, 9, 10];
  const { opcodes } = parseOpcodes(
    opcodeList([
      { id: 4, long: [0, 1] },
      { id: 5, long: [0, 1, 1, 3, 4, ...area] },
      { id: 6, long: area },
      {
        id: 9,
        long: [...area, 0, 1, 2, 2, 2, 2],
        double: [1, 1, 0, 0],
        behind: { long: [1], float: [1, 2, 3, 4] },
      },
    ]),
  );
  expect(opcodes).toEqual([
    { kind: 'fix-bad-pixels-constant', constant: 0 },
    { kind: 'fix-bad-pixels-list', points: [[3, 4]], areas: [area] },
    { kind: 'trim-bounds', area },
    {
      kind: 'gain-map',
      area,
      plane: 0,
      planes: 1,
      rowPitch: 2,
      columnPitch: 2,
      pointsV: 2,
      pointsH: 2,
      mapPlanes: 1,
      spacing: [1, 1],
      origin: [0, 0],
      gains: Float32Array.of(1, 2, 3, 4),
    },
  ]);
});

test.each([
  ['a warp of two planes', { id: 1, long: [2], double: Array(14).fill(0.5) }],
  ['a coefficient that is no number', { id: 3, double: [Number.NaN, 0, 0, 0, 0, 0.5, 0.5] }],
  ['a centre far away', { id: 3, double: [0, 0, 0, 0, 0, 50, 0.5] }],
  ['an area turned over', { id: 6, long: [9, 2, 1, 10] }],
  ['a map with more points than bytes', { id: 9, long: [0, 0, 9, 9, 0, 1, 1, 1, 60_000, 60_000] }],
  ['a list with more bad pixels than bytes', { id: 5, long: [0, 99_999, 0] }],
  ['figures that end early', { id: 3, double: [0.5] }],
])('%s counts as one that is not known', (_, wrong) => {
  expect(parseOpcodes(opcodeList([wrong]))).toEqual({ opcodes: [], skipped: [], missed: [wrong.id] });
});

test('bounds hold on both sides', () => {
  const many = Array(opcodeLimits.opcodesMax + 1).fill(vignette);
  expect(parseOpcodes(opcodeList(many)).opcodes).toHaveLength(opcodeLimits.opcodesMax);
  const points = (count: number): number[] => [0, count, 0, ...Array(2 * count).fill(1)];
  const { badPointsMax, listBytesMax } = opcodeLimits;
  expect(parseOpcodes(opcodeList([{ id: 5, long: points(badPointsMax) }])).opcodes).toHaveLength(1);
  expect(parseOpcodes(opcodeList([{ id: 5, long: points(badPointsMax + 1) }])).opcodes).toHaveLength(0);
  const padded = (length: number): Uint8Array => {
    const bytes = new Uint8Array(length);
    bytes.set(opcodeList([vignette]));
    return bytes;
  };
  expect(parseOpcodes(padded(listBytesMax)).opcodes).toHaveLength(1);
  expect(parseOpcodes(padded(listBytesMax + 1)).opcodes).toHaveLength(0);
});

test('no bytes make it throw, and what it gives is bounded', () => {
  const lists = fc.oneof(
    fc.uint8Array({ maxLength: 400 }),
    fc.tuple(fc.constantFrom(...[warp, vignette]), fc.nat(200), fc.nat(255)).map(([one, at, byte]) => {
      const bytes = opcodeList([one]);
      bytes[at % bytes.length] = byte;
      return bytes;
    }),
  );
  fc.assert(
    fc.property(lists, (bytes) => {
      const { opcodes, skipped, missed } = parseOpcodes(bytes);
      expect(opcodes.length + skipped.length + missed.length).toBeLessThanOrEqual(opcodeLimits.opcodesMax);
    }),
    { numRuns: 2000 },
  );
});
