/**
 * Lossless JPEG (ITU-T T.81, process SOF3) in WebAssembly (AssemblyScript; README.md beside has the recipe). The readable
 * truth is `../decode-reference.ts`. Addresses are bytes in the imported memory, chosen by the caller.
 */

/** Bits that the first table is looked into with: a code and its difference fit nearly always, and 16 kB stay in the cache. */
const peekBits: u32 = 12;

/** In the low bits of an entry: not all of code and difference lies within the peek. */
const isLong: u32 = 0x80;

/** Bytes of one component's tables: `peekBits`, then codes of up to 16 bits, two bytes each. */
const peekBytes: u32 = 4 << peekBits;

// What `scan` goes on from, at `state`: an address, bits that wait and how many, what predicts the next row, all bits seen.
const atAt: usize = 0;
const countAt: usize = 4;
const bitsAt: usize = 8;
const firstAAt: usize = 16;
const firstBAt: usize = 20;
const seenAt: usize = 24;

/** In the bits seen: a code that stands in no table was met. Beyond any precision. */
const broken: u32 = 0x10000;

/**
 * Takes out the zero behind each 0xff of entropy-coded bytes (B.1.1.5), in place, up to the first marker or `end`. Gives where
 * the bytes end now; the 16 behind are zero. The caller leaves 32 bytes free behind `end`.
 */
export function unstuff(from: usize, end: usize): usize {
  let at = from;
  let to = from;
  while (at < end) {
    if (at + 16 <= end) {
      const bytes = v128.load(at);
      if (!v128.any_true(i8x16.eq(bytes, i8x16.splat(-1)))) {
        v128.store(to, bytes);
        at += 16;
        to += 16;
        continue;
      }
    }
    const stop = at + 16 < end ? at + 16 : end;
    while (at < stop) {
      const byte = load<u8>(at++);
      if (byte === 0xff) {
        if (at >= end || load<u8>(at) !== 0) {
          at = end;
          break;
        }
        at++;
      }
      store<u8>(to++, byte);
    }
  }
  v128.store(to, i8x16.splat(0));
  return to;
}

/**
 * Tables of one component at `table` from a Huffman table as it is written (B.2.4.2): 16 counts at `counts`, categories behind.
 * The counts fit into 16 bits and categories are 16 at most: the caller has seen to it.
 */
export function tables(counts: usize, table: usize): void {
  const long = table + peekBytes;
  memory.fill(long, 0, 0x20000);
  let symbol = counts + 16;
  let code: u32 = 0;
  for (let length: u32 = 1; length <= 16; length++) {
    const width: u32 = 1 << (16 - length);
    for (let left: u32 = load<u8>(counts + length - 1); left > 0; left--) {
      const entry: u32 = (<u32>load<u8>(symbol++) << 8) | length;
      for (let i: u32 = 0; i < width; i++) store<u16>(long + ((code + i) << 1), <u16>entry);
      code += width;
    }
  }
  for (let peek: u32 = 0; peek < 1 << peekBits; peek++) {
    const entry: u32 = load<u16>(long + (peek << (17 - peekBits)));
    const length = entry & 0xff;
    const category = entry >> 8;
    const whole = length > 0 && length + category <= peekBits;
    store<u32>(table + (peek << 2), whole ? entryOf(<u64>peek << (64 - peekBits), length, category) : isLong);
  }
}

/** Begins a scan at `start`, of samples of `precision` bits. */
export function begin(state: usize, start: usize, precision: u32): void {
  store<u32>(state, <u32>start, atAt);
  store<i32>(state, 0, countAt);
  store<u64>(state, 0, bitsAt);
  store<i32>(state, 1 << (precision - 1), firstAAt);
  store<i32>(state, 1 << (precision - 1), firstBAt);
  store<u32>(state, 0, seenAt);
}

/**
 * The next `rows` rows of a scan with predictor 1: rows of `width` samples (even), `stride` bytes apart, of one or two
 * components. `end` is where the bytes of `unstuff` end. Gives 1; 0 where bytes are missing, a code is none, or a sample needs
 * more than `precision` bits. Reads at most 4 bytes a sample beyond the end.
 *
 * Some rows at a time: an engine compiles a function well while it is called again and again, not while it runs.
 */
export function scan(
  state: usize,
  end: usize,
  tableA: usize,
  tableB: usize,
  width: u32,
  rows: u32,
  isSingle: bool,
  precision: u32,
  out: usize,
  stride: u32,
): u32 {
  let at = <usize>load<u32>(state, atAt);
  let count = load<i32>(state, countAt);
  let bits = load<u64>(state, bitsAt);
  let firstA = load<i32>(state, firstAAt);
  let firstB = load<i32>(state, firstBAt);
  let seen = load<u32>(state, seenAt);
  for (let row: u32 = 0; row < rows; row++) {
    let a = firstA;
    let b = firstB;
    const line = out + row * stride;
    const lineEnd = line + (width << 1);
    for (let to = line; to < lineEnd; to += 4) {
      if (count < 32) {
        bits |= <u64>bswap<u32>(load<u32>(at)) << <u64>(32 - count);
        at += 4;
        count += 32;
      }
      let entry = load<i32>(tableA + <usize>((bits >> (64 - peekBits)) << 2));
      if (entry & isLong) entry = longEntry(bits, tableA, state);
      a = (a + (entry >> 8)) & 0xffff;
      bits <<= <u64>(entry & 0x3f);
      count -= entry & 0x3f;
      if (count < 32) {
        bits |= <u64>bswap<u32>(load<u32>(at)) << <u64>(32 - count);
        at += 4;
        count += 32;
      }
      entry = load<i32>(tableB + <usize>((bits >> (64 - peekBits)) << 2));
      if (entry & isLong) entry = longEntry(bits, tableB, state);
      bits <<= <u64>(entry & 0x3f);
      count -= entry & 0x3f;
      // One component goes on from the sample just found, two each from its own.
      b = ((isSingle ? a : b) + (entry >> 8)) & 0xffff;
      store<u32>(to, a | (b << 16));
      if (to === line) {
        firstA = a;
        firstB = b;
      }
      seen |= a | b;
      if (isSingle) a = b;
    }
    if (at - <usize>(count >> 3) > end) return 0;
  }
  store<u32>(state, <u32>at, atAt);
  store<i32>(state, count, countAt);
  store<u64>(state, bits, bitsAt);
  store<i32>(state, firstA, firstAAt);
  store<i32>(state, firstB, firstBAt);
  seen |= load<u32>(state, seenAt);
  store<u32>(state, seen, seenAt);
  return seen >> precision ? 0 : 1;
}

/** A code, and where it does not lie within the peek what follows it. */
function longEntry(bits: u64, table: usize, state: usize): i32 {
  const entry: u32 = load<u16>(table + peekBytes + <usize>((bits >> 48) << 1));
  if (entry === 0) {
    store<u32>(state, broken, seenAt);
    return 1;
  }
  return entryOf(bits, entry & 0xff, entry >> 8);
}

/** The difference (H.1.2.2, and table H.2 for 16) in the upper 24 bits, bits of it all in the lower 6. */
function entryOf(bits: u64, length: u32, category: u32): i32 {
  if (category === 0) return length;
  if (category === 16) return (32768 << 8) | length;
  const low = <i32>((bits << <u64>length) >> <u64>(64 - category));
  const difference = low < 1 << (category - 1) ? low - (1 << category) + 1 : low;
  return (difference << 8) | (length + category);
}
