import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inspect } from './inspect.ts';
import { blockBytes, SparseSource, wholeBlocks } from './sparse-source.ts';

const counted = (length: number, from = 0): Uint8Array =>
  Uint8Array.from({ length }, (_, i) => (from + i) % 251);

test('what was put in is read back, over the borders of blocks as well', () => {
  const source = new SparseSource();
  source.put(0, counted(3 * blockBytes));
  expect(source.read(blockBytes - 2, 4)).toEqual(counted(4, blockBytes - 2));
  expect(source.read(1, 2 * blockBytes)).toEqual(counted(2 * blockBytes, 1));
});

test('bytes that have arrived but were not put in, and bytes behind the end, are not at hand', () => {
  const source = new SparseSource();
  source.grow(100);
  source.put(10, counted(20, 10));
  expect(source.read(10, 20)).toEqual(counted(20, 10));
  expect(source.read(9, 2)).toBeNull();
  expect(source.read(29, 2)).toBeNull();
  expect(source.read(99, 2)).toBeNull();
  expect(source.read(-1, 2)).toBeNull();
});

test('a growing end is put in piece by piece', () => {
  const source = new SparseSource();
  for (let at = 0; at < 50; at++) source.put(at, counted(1, at));
  expect(source.read(0, 50)).toEqual(counted(50));
  expect(source.sizeBytes).toBe(50);
});

test('a file never becomes shorter, and ends when told', () => {
  const source = new SparseSource();
  source.grow(10);
  source.grow(5);
  expect(source.sizeBytes).toBe(10);
  expect(source.ended).toBe(false);
  source.end();
  expect(source.ended).toBe(true);
});

test('memory stays within the bound, and the least recently read block goes first', () => {
  const source = new SparseSource(2 * blockBytes);
  source.put(0, counted(2 * blockBytes));
  expect(source.heldBytes).toBe(2 * blockBytes);
  source.read(0, 1);
  source.put(2 * blockBytes, counted(blockBytes));
  expect(source.heldBytes).toBe(2 * blockBytes);
  expect(source.read(0, 1)).not.toBeNull();
  expect(source.read(blockBytes, 1)).toBeNull();
});

test('a read longer than the bound is refused without an allocation', () => {
  const source = new SparseSource(2 * blockBytes);
  source.grow(2 ** 40);
  expect(source.read(0, 2 ** 39)).toBeNull();
});

test('wanted ranges are rounded out to blocks and end at the last byte there is', () => {
  expect(wholeBlocks({ offset: 5, length: 1 }, 10 * blockBytes)).toEqual({ offset: 0, length: blockBytes });
  expect(wholeBlocks({ offset: blockBytes - 1, length: 2 }, 10 * blockBytes).length).toBe(2 * blockBytes);
  expect(wholeBlocks({ offset: 5, length: 1 }, 7)).toEqual({ offset: 0, length: 7 });
});

test('whatever is put in where, a read gives exactly those bytes or nothing', () => {
  const range = fc.record({ offset: fc.nat(3 * blockBytes), length: fc.nat(blockBytes) });
  fc.assert(
    fc.property(fc.array(range, { maxLength: 12 }), fc.array(range, { maxLength: 12 }), (puts, reads) => {
      const source = new SparseSource(2 * blockBytes);
      for (const put of puts) source.put(put.offset, counted(put.length, put.offset));
      for (const read of reads) {
        const bytes = source.read(read.offset, read.length);
        if (bytes !== null) expect(bytes).toEqual(counted(read.length, read.offset));
      }
      expect(source.heldBytes).toBeLessThanOrEqual(2 * blockBytes);
    }),
    { numRuns: 60 },
  );
});

test('a file without a byte yet is asked about again when it has some', () => {
  const source = new SparseSource();
  expect(source.read(0, 0)).toEqual(new Uint8Array(0));
  expect(inspect(source)).toMatchObject({ kind: 'empty', wantedNext: 16 });
});
