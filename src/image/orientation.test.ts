import fc from 'fast-check';
import { expect, test } from 'vitest';
import { orientPixels } from './kernels/orient-pixels.ts';
import {
  type Orientation,
  parseOrientation,
  storedPosition,
  turnUpright,
  uprightSize,
} from './orientation.ts';
import type { Raster } from './raster.ts';

const orientations = [1, 2, 3, 4, 5, 6, 7, 8] as const;

/**
 * A picture whose upright form is the letter F in its first column and rows, stored as Exif 2.32 (tag 0x0112) describes:
 * the value names where the stored row 0 and column 0 belong in the upright picture.
 */
const uprightF = ['##', '#.', '#.'];
const storedF: Readonly<Record<Orientation, readonly string[]>> = {
  1: ['##', '#.', '#.'], // row 0 top, column 0 left
  2: ['##', '.#', '.#'], // row 0 top, column 0 right
  3: ['.#', '.#', '##'], // row 0 bottom, column 0 right
  4: ['#.', '#.', '##'], // row 0 bottom, column 0 left
  5: ['###', '#..'], // row 0 left, column 0 top
  6: ['#..', '###'], // row 0 right, column 0 top
  7: ['..#', '###'], // row 0 right, column 0 bottom
  8: ['###', '..#'], // row 0 left, column 0 bottom
};

function rasterOf(rows: readonly string[]): Raster<Uint8Array> {
  const data = Uint8Array.from([...rows.join('')], (letter) => (letter === '#' ? 1 : 0));
  return { data, widthPx: rows[0]?.length ?? 0, heightPx: rows.length, channels: 1 };
}

test.each(orientations)('orientation %i turns the stored letter upright', (orientation) => {
  expect(turnUpright(rasterOf(storedF[orientation]), orientation)).toEqual(rasterOf(uprightF));
});

test('the kernel puts every pixel where the reference says, at any size, channel count and orientation', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 70 }),
      fc.integer({ min: 1, max: 70 }),
      fc.integer({ min: 1, max: 4 }),
      fc.constantFrom(...orientations),
      (widthPx, heightPx, channels, orientation) => {
        const stored = Uint16Array.from({ length: widthPx * heightPx * channels }, (_, index) => index);
        const out = new Uint16Array(stored.length);
        orientPixels(stored, widthPx, heightPx, channels, orientation, out);
        const upright = uprightSize({ widthPx, heightPx }, orientation);
        const expected = new Uint16Array(stored.length);
        for (let row = 0; row < upright.heightPx; row++) {
          for (let column = 0; column < upright.widthPx; column++) {
            const from = storedPosition(row, column, { widthPx, heightPx }, orientation);
            for (let channel = 0; channel < channels; channel++) {
              expected[(row * upright.widthPx + column) * channels + channel] =
                stored[(from.row * widthPx + from.column) * channels + channel] ?? 0;
            }
          }
        }
        expect(out).toEqual(expected);
      },
    ),
  );
});

test('a number that is no orientation counts as upright', () => {
  expect([0, 1, 8, 9, -1, 2.5, Number.NaN].map(parseOrientation)).toEqual([1, 1, 8, 1, 1, 1, 1]);
});

test('the kernel refuses arrays of another size, and to write over what it reads', () => {
  const data = new Uint8Array(12);
  expect(() => orientPixels(data, 2, 2, 3, 6, new Uint8Array(11))).toThrow(RangeError);
  expect(() => orientPixels(data, 2, 3, 3, 6, new Uint8Array(12))).toThrow(RangeError);
  expect(() => orientPixels(data, 2, 2, 3, 6, data)).toThrow(RangeError);
});
