import type { LosslessHead } from './lossless-head.ts';

/**
 * The samples of a lossless JPEG, plain and slow: ITU-T T.81, annexes C (codes), F.2.2.3 (decoding), H.1.2 (differences and
 * predictors). Null where bytes are missing, a code stands in no table, or a sample needs more bits than were announced.
 */
export function decodeLosslessPlainly(bytes: Uint8Array, head: LosslessHead): Uint16Array | null {
  const { precision, rows, rowSamples, components, tables, scanAt } = head;
  const categories = tables.map(categoryOfCode);
  const nextBit = bitsOf(bytes, scanAt);
  const values = new Uint16Array(rows * rowSamples);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < rowSamples; column++) {
      const at = row * rowSamples + column;
      const category = nextCategory(nextBit, categories[column % components] ?? new Map());
      const difference = category === null ? null : nextDifference(nextBit, category);
      if (difference === null) return null;
      // H.1.2.1: from the left; a row's first samples from those above, the picture's first from half the range.
      const above = row === 0 ? 2 ** (precision - 1) : (values[at - rowSamples] ?? 0);
      const predicted = column < components ? above : (values[at - components] ?? 0);
      const value = (predicted + difference) & 0xffff;
      if (value >= 2 ** precision) return null;
      values[at] = value;
    }
  }
  return values;
}

/** C.2: codes of one length count up, and are shifted left where the length grows. By the code with a leading 1. */
function categoryOfCode(table: Uint8Array): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  let code = 0;
  let symbol = 16;
  for (let length = 1; length <= 16; length++, code *= 2) {
    for (let left = table[length - 1] ?? 0; left > 0; left--) {
      found.set(2 ** length + code++, table[symbol++] ?? 0);
    }
  }
  return found;
}

/** The bits of entropy-coded bytes, without the zero behind each 0xff (B.1.1.5); null once a marker or the end is there. */
function bitsOf(bytes: Uint8Array, from: number): () => 0 | 1 | null {
  let at = from;
  let left = 0;
  let byte = 0;
  return () => {
    if (left === 0) {
      const next = bytes[at++];
      if (next === undefined || (next === 0xff && bytes[at++] !== 0)) {
        at = bytes.length;
        return null;
      }
      byte = next;
      left = 8;
    }
    left--;
    return ((byte >> left) & 1) === 1 ? 1 : 0;
  };
}

function nextCategory(nextBit: () => 0 | 1 | null, categories: ReadonlyMap<number, number>): number | null {
  let code = 1;
  for (let length = 1; length <= 16; length++) {
    const bit = nextBit();
    if (bit === null) return null;
    code = code * 2 + bit;
    const category = categories.get(code);
    if (category !== undefined) return category;
  }
  return null;
}

/** H.1.2.2: as many bits as the category says; those that begin with 0 mean a negative difference. 16 has none. */
function nextDifference(nextBit: () => 0 | 1 | null, category: number): number | null {
  if (category === 16) return 32_768;
  let bits = 0;
  for (let k = 0; k < category; k++) {
    const bit = nextBit();
    if (bit === null) return null;
    bits = bits * 2 + bit;
  }
  return category > 0 && bits < 2 ** (category - 1) ? bits - 2 ** category + 1 : bits;
}
