import { expect, test } from 'vitest';
import { encodeLosslessJpeg } from './lossless-jpeg.ts';

/**
 * The plain decoder that the encoder is held against, step by step after ITU-T T.81. LibRaw, which shares nothing with
 * either, reads whole files in `test/vectors/stand-in-files.test.ts`.
 */
function decode(bytes: Uint8Array): { width: number; height: number; bits: number; values: Uint16Array } {
  const at = (index: number): number => bytes[index] ?? 0;
  const word = (index: number): number => at(index) * 256 + at(index + 1);
  expect([at(0), at(1)]).toEqual([0xff, 0xd8]);
  let place = 2;
  let frame = { bits: 0, height: 0, columns: 0 };
  const symbolOf = new Map<string, number>();
  for (let scan = false; !scan; place += 2 + word(place + 2)) {
    const payload = place + 4;
    if (at(place + 1) === 0xc3) {
      frame = { bits: at(payload), height: word(payload + 1), columns: word(payload + 3) };
      expect(at(payload + 5)).toBe(2);
    } else if (at(place + 1) === 0xc4) {
      // C.2: codes of one length count up, and are shifted where the length grows.
      let code = 0;
      let symbol = payload + 17;
      for (let length = 1; length <= 16; length++, code <<= 1) {
        for (let k = 0; k < at(payload + length); k++, code++, symbol++) {
          const text = code.toString(2).padStart(length, '0');
          expect(text, 'no code is all ones (C.2)').toMatch(/0/);
          symbolOf.set(text, at(symbol));
        }
      }
    } else {
      expect(at(place + 1)).toBe(0xda);
      scan = true;
    }
  }
  let bit = 0;
  const nextBit = (): number => {
    const value = (at(place) >> (7 - bit)) & 1;
    if (++bit === 8) {
      bit = 0;
      place += at(place) === 0xff ? 2 : 1; // F.1.2.3: the stuffed zero
    }
    return value;
  };
  const width = frame.columns * 2;
  const values = new Uint16Array(width * frame.height);
  for (let index = 0; index < values.length; index++) {
    let code = '';
    while (!symbolOf.has(code)) code += nextBit();
    const category = symbolOf.get(code) ?? 0;
    let more = 0;
    if (category < 16) for (let k = 0; k < category; k++) more = more * 2 + nextBit();
    // Table H.2; category 16 is 32,768.
    const negative = category > 0 && category < 16 && more < 2 ** (category - 1);
    const difference = category === 16 ? 32_768 : negative ? more - 2 ** category + 1 : more;
    const column = index % width;
    const above = index < width ? 2 ** (frame.bits - 1) : (values[index - width] ?? 0);
    values[index] = (column < 2 ? above : (values[index - 2] ?? 0)) + difference;
  }
  while (bit > 0) expect(nextBit(), 'the last byte is filled with ones (F.1.2.3)').toBe(1);
  expect([at(place), at(place + 1), place + 2]).toEqual([0xff, 0xd9, bytes.length]);
  return { width, height: frame.height, bits: frame.bits, values };
}

function roundTrip(values: Uint16Array, widthPx: number, bitsPerSample: number): void {
  const heightPx = values.length / widthPx;
  const decoded = decode(encodeLosslessJpeg({ mosaic: values, widthPx, heightPx, bitsPerSample }));
  expect([decoded.width, decoded.height, decoded.bits]).toEqual([widthPx, heightPx, bitsPerSample]);
  expect(decoded.values).toEqual(values);
}

/** A congruential generator, so that each run has the same values (Numerical Recipes, 2nd ed., section 7.1). */
function noise(length: number, below: number): Uint16Array {
  let state = 1;
  return Uint16Array.from({ length }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  });
}

test.each([2, 8, 12, 14, 16])('noise over the whole range of %i bits comes back bit for bit', (bits) => {
  roundTrip(noise(40 * 30, 2 ** bits), 40, bits);
});

test('a flat picture, one pair of samples, and one row come back', () => {
  roundTrip(new Uint16Array(64).fill(8192), 8, 14);
  roundTrip(Uint16Array.of(1, 16_383), 2, 14);
  roundTrip(noise(64, 16_384), 64, 14);
});

test('the largest differences of 16 bits come back: those of 32,768 have no additional bits', () => {
  roundTrip(Uint16Array.of(0, 65_535, 32_768, 32_767, 0, 65_535, 65_535, 0, 32_767, 32_768, 1, 2), 4, 16);
});

test('differences so uneven that the best codes are longer than 16 bits come back', () => {
  // Each category comes about half as often as the one before: code lengths 1, 2, 3 ... 17 before they are limited.
  const values: number[] = [];
  let level = 32_768;
  for (let category = 0; category <= 15; category++) {
    for (let k = 0; k < 2 ** (15 - category); k++) {
      level = (level + (category === 0 ? 0 : 2 ** (category - 1)) * (k % 2 === 0 ? 1 : -1)) & 0xffff;
      values.push(level, level);
    }
  }
  while (values.length % 256 !== 0) values.push(level);
  roundTrip(Uint16Array.from(values), 256, 16);
});

test.each([
  [6, 3, 14, 17],
  [5, 3, 14, 15],
  [0, 0, 14, 0],
  [6, 3, 1, 18],
  [6, 3, 17, 18],
  [131_072, 1, 14, 131_072],
  [2, 65_536, 14, 131_072],
])('%i x %i of %i bits from %i values is refused', (widthPx, heightPx, bitsPerSample, length) => {
  const mosaic = new Uint16Array(length);
  expect(() => encodeLosslessJpeg({ mosaic, widthPx, heightPx, bitsPerSample })).toThrow(RangeError);
});
