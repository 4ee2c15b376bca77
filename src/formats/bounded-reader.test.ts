import { expect, test } from 'vitest';
import { BoundedReader } from './bounded-reader.ts';
import { sourceOfBytes } from './byte-source.ts';
import { defaultLimits } from './limits.ts';
import { blockBytes } from './sparse-source.ts';

const unloaded = { sizeBytes: 2 ** 31, ended: false, read: (): null => null };

test('what has arrived but is not loaded is wanted, in whole blocks, each once', () => {
  const reader = new BoundedReader(unloaded, defaultLimits);
  reader.take(10, 4);
  reader.take(100, 4);
  reader.take(blockBytes, 1);
  expect(reader.wanted).toEqual([
    { offset: 0, length: blockBytes },
    { offset: blockBytes, length: blockBytes },
  ]);
  expect(reader.awaitedEnd).toBeNull();
});

test('what has not arrived is awaited, the nearest end first, and structure proves the length', () => {
  const reader = new BoundedReader(sourceOfBytes(new Uint8Array(10), false), defaultLimits);
  reader.take(20, 10);
  reader.take(8, 4);
  reader.peek(90, 10);
  expect(reader.awaitedEnd).toBe(12);
  expect(reader.provenEnd).toBe(30);
  expect(reader.wanted).toEqual([]);
});

test('at most so many ranges are wanted at once', () => {
  for (const count of [31, 32, 33]) {
    const reader = new BoundedReader(unloaded, defaultLimits);
    for (let i = 0; i < count; i++) reader.take(i * blockBytes, 1);
    expect(reader.wanted).toHaveLength(Math.min(count, 32));
  }
});
