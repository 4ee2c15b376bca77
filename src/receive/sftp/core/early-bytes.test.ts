import { expect, test } from 'vitest';
import { EarlyBytes, EarlyRoom } from './early-bytes.ts';

const limits = { earlyBytesPerFileMax: 10, earlyPiecesPerFileMax: 3 };
const of = (length: number): Uint8Array => new Uint8Array(length);

test('11.2 what waits for its turn is bounded by bytes of a file, pieces of a file and bytes of the door', () => {
  const bytes = new EarlyBytes(limits, new EarlyRoom(100));
  expect(bytes.put(100, of(10))).toBe('taken');
  expect(bytes.put(200, of(1))).toBe('too-far');

  const pieces = new EarlyBytes(limits, new EarlyRoom(100));
  expect([1, 3, 5, 7].map((offset) => pieces.put(offset, of(1)))).toEqual([
    'taken',
    'taken',
    'taken',
    'too-far',
  ]);

  const room = new EarlyRoom(7);
  expect(new EarlyBytes(limits, room).put(1, of(4))).toBe('taken');
  const other = new EarlyBytes(limits, room);
  expect([other.put(1, of(4)), other.put(1, of(3))]).toEqual(['too-far', 'taken']);
});

test('11.2 bytes that meet others are refused, bytes that only touch them are not', () => {
  const early = new EarlyBytes(limits, new EarlyRoom(100));
  early.put(10, of(4));
  expect(early.put(13, of(1))).toBe('overlapping');
  expect(early.put(8, of(3))).toBe('overlapping');
  expect(early.put(14, of(2))).toBe('taken');
  expect(early.put(8, of(2))).toBe('taken');
});

test('room is given back by what found its place and by what never will', () => {
  const room = new EarlyRoom(8);
  const early = new EarlyBytes(limits, room);
  early.put(4, of(5));
  early.put(9, of(3));
  expect(early.takeAt(5)).toBeNull();
  expect(early.takeAt(4)).toHaveLength(5);
  expect([room.take(6), room.take(5)]).toEqual([false, true]);
  early.clear();
  expect(early.isEmpty).toBe(true);
  expect(room.take(3)).toBe(true);
});
