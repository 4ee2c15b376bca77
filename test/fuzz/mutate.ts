import type { Chance } from './chance.ts';

/** Edges at which comparisons and sums turn over. */
const edges = [0, 1, 7, 8, 16, 127, 128, 255, 256, 32_767, 65_535, 0x7fff_ffff, 0x8000_0000, 0xffff_ffff];

/** A new input made of `parent`, sometimes of `other` too, by a few small changes. */
export function mutate(
  chance: Chance,
  parent: Uint8Array,
  other: Uint8Array,
  words: readonly Uint8Array[],
  bytesMax: number,
): Uint8Array {
  let bytes = parent;
  for (let changes = 1 + chance.below(4); changes > 0; changes -= 1) {
    bytes = chance.oneOf(changesOf)(chance, bytes, other, words);
  }
  return bytes.subarray(0, bytesMax);
}

type Change = (
  chance: Chance,
  bytes: Uint8Array,
  other: Uint8Array,
  words: readonly Uint8Array[],
) => Uint8Array;

/** A place near the beginning more often than not: heads decide. */
const place = (chance: Chance, length: number): number =>
  chance.below(1 + chance.below(1 + chance.below(length + 1)));

const withBytes = (bytes: Uint8Array, at: number, put: Uint8Array, instead: number): Uint8Array => {
  const made = new Uint8Array(bytes.length - Math.min(instead, bytes.length - at) + put.length);
  made.set(bytes.subarray(0, at));
  made.set(put, at);
  made.set(bytes.subarray(at + instead), at + put.length);
  return made;
};

const number = (chance: Chance, width: number): Uint8Array => {
  const value = chance.oneOf(edges) + chance.below(3) - 1;
  const put = Uint8Array.from({ length: width }, (_, at) => Math.floor(value / 256 ** at) & 0xff);
  return chance.below(2) === 0 ? put : put.reverse();
};

const part = (chance: Chance, bytes: Uint8Array): Uint8Array => {
  const from = chance.below(bytes.length + 1);
  return bytes.slice(from, from + 1 + chance.below(chance.below(256) + 1));
};

const changesOf: readonly Change[] = [
  (chance, bytes) => {
    const made = bytes.slice();
    const at = place(chance, bytes.length);
    if (at < made.length) made[at] ^= 1 << chance.below(8);
    return made;
  },
  (chance, bytes) => withBytes(bytes, place(chance, bytes.length), Uint8Array.of(chance.below(256)), 1),
  (chance, bytes) => {
    const width = chance.oneOf([2, 4, 8]);
    return withBytes(bytes, place(chance, bytes.length), number(chance, width), width);
  },
  (chance, bytes) => withBytes(bytes, place(chance, bytes.length), part(chance, bytes), 0),
  (chance, bytes) => withBytes(bytes, place(chance, bytes.length), new Uint8Array(0), 1 + chance.below(16)),
  (chance, bytes, other) => withBytes(bytes, place(chance, bytes.length), part(chance, other), 0),
  (chance, bytes, other) => {
    const put = part(chance, other);
    return withBytes(bytes, place(chance, bytes.length), put, put.length);
  },
  (chance, bytes, _other, words) =>
    words.length === 0
      ? bytes
      : withBytes(bytes, place(chance, bytes.length), chance.oneOf(words), chance.below(2) * 4),
  (chance, bytes) => bytes.slice(0, chance.below(bytes.length + 1)),
];
