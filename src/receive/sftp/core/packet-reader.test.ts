import { expect, test } from 'vitest';
import { joined, PacketReader, parted } from './packet-reader.ts';

/** Two packets: a length of 3 and `1 2 3`, a length of 1 and `9`. */
const bytes = Uint8Array.of(0, 0, 0, 3, 1, 2, 3, 0, 0, 0, 1, 9);

function packetsOf(chunks: readonly Uint8Array[], packetBytesMax = 100): unknown[] {
  const reader = new PacketReader(packetBytesMax);
  const packets: unknown[] = [];
  for (const chunk of chunks) {
    reader.push(chunk);
    for (let next = reader.next(); next !== null; next = reader.next()) {
      packets.push(next.kind === 'packet' ? [...joined(next.pieces)] : next);
      if (next.kind === 'bad-length') return packets;
    }
  }
  return packets;
}

test('packets come out the same however they are cut into chunks', () => {
  const expected = [[1, 2, 3], [9]];
  expect(packetsOf([bytes])).toEqual(expected);
  expect(packetsOf([...bytes].map((byte) => Uint8Array.of(byte)))).toEqual(expected);
  for (let first = 0; first <= bytes.length; first += 1) {
    for (let second = first; second <= bytes.length; second += 1) {
      const chunks = [bytes.subarray(0, first), bytes.subarray(first, second), bytes.subarray(second)];
      expect(packetsOf(chunks)).toEqual(expected);
    }
  }
});

test('11.11 a packet as long as the bound is taken, one longer and an empty one are not', () => {
  expect(packetsOf([Uint8Array.of(0, 0, 0, 3, 1, 2, 3)], 3)).toEqual([[1, 2, 3]]);
  expect(packetsOf([Uint8Array.of(0, 0, 0, 4)], 3)).toEqual([{ kind: 'bad-length', lengthBytes: 4 }]);
  expect(packetsOf([Uint8Array.of(0, 0, 0, 0)], 3)).toEqual([{ kind: 'bad-length', lengthBytes: 0 }]);
});

test('a length of four bytes of ones is a large number, not a negative one', () => {
  expect(packetsOf([Uint8Array.of(255, 255, 255, 255)])).toEqual([
    { kind: 'bad-length', lengthBytes: 4_294_967_295 },
  ]);
});

test('a packet in one chunk is not copied', () => {
  const reader = new PacketReader(100);
  reader.push(bytes);
  const packet = reader.next();
  expect(packet?.kind === 'packet' && packet.pieces[0]?.buffer).toBe(bytes.buffer);
});

test('pieces are parted at any place without losing a byte', () => {
  const pieces = [Uint8Array.of(1, 2), Uint8Array.of(3), Uint8Array.of(4, 5, 6)];
  for (let at = 0; at <= 6; at += 1) {
    const { before, after } = parted(pieces, at);
    expect(joined(before)).toHaveLength(at);
    expect([...joined(before), ...joined(after)]).toEqual([1, 2, 3, 4, 5, 6]);
  }
});
