/** Huffman tables as JPEG writes them: ITU-T T.81 annex K.2 (lengths from counts) and annex C (codes from lengths). */

/** `BITS` and `HUFFVAL` of a DHT segment (T.81 B.2.4.2), and what an encoder makes of them. */
export interface HuffmanTable {
  /** How many codes there are of each length 1 ... 16. */
  readonly lengthCounts: readonly number[];
  /** Symbols in the order of their codes. */
  readonly symbols: readonly number[];
  /** By symbol; 0 where the symbol never comes. */
  readonly lengths: readonly number[];
  /** By symbol. */
  readonly codes: readonly number[];
}

/** A DHT segment has no room for longer codes. */
const codeBitsMax = 16;

/** The table for symbols 0 ... `counts.length - 1` that come so often. Symbols that never come get no code. */
export function huffmanTable(counts: ArrayLike<number>): HuffmanTable {
  const lengthCounts = limitedLengthCounts(codeSizes(counts));
  const symbols = symbolsByCount(counts);
  const lengths = new Array<number>(counts.length).fill(0);
  const codes = new Array<number>(counts.length).fill(0);
  let code = 0;
  let next = 0;
  // C.2: codes of one length count up; one more bit is appended where the length grows.
  lengthCounts.forEach((count, index) => {
    for (const symbol of symbols.slice(next, next + count)) {
      lengths[symbol] = index + 1;
      codes[symbol] = code++;
    }
    next += count;
    code <<= 1;
  });
  return { lengthCounts, symbols, lengths, codes };
}

/**
 * Figure K.1: code lengths by joining the two rarest again and again. One more symbol, which comes once, is taken
 * along: it gets the code of all ones, which no real symbol may have.
 */
function codeSizes(counts: ArrayLike<number>): number[] {
  const sizes = new Array<number>(counts.length + 1).fill(0);
  let groups = [...Array.from(counts), 1]
    .map((count, symbol) => ({ count, members: [symbol] }))
    .filter(({ count }) => count > 0);
  while (groups.length > 1) {
    groups.sort((a, b) => a.count - b.count);
    const [rarest, next, ...others] = groups;
    if (rarest === undefined || next === undefined) break;
    const members = [...rarest.members, ...next.members];
    for (const symbol of members) sizes[symbol] = (sizes[symbol] ?? 0) + 1;
    groups = [...others, { count: rarest.count + next.count, members }];
  }
  return sizes;
}

/** Figures K.2 and K.3: how many codes of each length, none above 16 bits, and the reserved one taken out again. */
function limitedLengthCounts(sizes: readonly number[]): number[] {
  const bits = new Array<number>(sizes.length + 1).fill(0);
  for (const size of sizes) if (size > 0) bits[size] = (bits[size] ?? 0) + 1;
  const add = (length: number, change: number): void => {
    bits[length] = (bits[length] ?? 0) + change;
  };
  for (let length = bits.length - 1; length > codeBitsMax; length--) {
    while ((bits[length] ?? 0) > 0) {
      let shorter = length - 2;
      while ((bits[shorter] ?? 0) === 0) shorter--;
      add(length, -2);
      add(length - 1, 1);
      add(shorter + 1, 2);
      add(shorter, -1);
    }
  }
  const longest = bits.findLastIndex((count) => count > 0);
  if (longest > 0) add(longest, -1);
  return Array.from({ length: codeBitsMax }, (_, index) => bits[index + 1] ?? 0);
}

/** Figure K.4: the commonest first, so that it gets the shortest code. */
function symbolsByCount(counts: ArrayLike<number>): number[] {
  const count = (symbol: number): number => counts[symbol] ?? 0;
  return [...Array.from(counts).keys()]
    .filter((symbol) => count(symbol) > 0)
    .sort((a, b) => count(b) - count(a) || a - b);
}
