import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hideExif } from './hide-exif.ts';

const startOfImage = [0xff, 0xd8];
const jfif = [0xff, 0xe0, 0, 7, 0x4a, 0x46, 0x49, 0x46, 0];
const exif = [0xff, 0xe1, 0, 10, 0x45, 0x78, 0x69, 0x66, 0, 0, 0x4d, 0x4d];
const xmp = [0xff, 0xe1, 0, 6, 0x68, 0x74, 0x74, 0x70];
const scan = [0xff, 0xda, 0, 2, ...exif];

test('the name of an Exif segment is gone and every other byte is kept', () => {
  const bytes = Uint8Array.from([...startOfImage, ...jfif, ...exif, ...xmp, ...scan]);
  const before = [...bytes];
  hideExif(bytes);
  const changed = before.flatMap((byte, index) => (byte === bytes[index] ? [] : [index]));
  expect(changed).toEqual([startOfImage.length + jfif.length + 4]);
});

test('fill bytes before a marker are passed over', () => {
  const bytes = Uint8Array.from([...startOfImage, 0xff, ...exif]);
  hideExif(bytes);
  expect(bytes[startOfImage.length + 1 + 4]).toBe(0);
});

test('whatever the bytes and wherever they end, it comes to an end and changes at most the names', () => {
  const begin = Uint8Array.from([...startOfImage, ...jfif, ...exif, ...xmp, ...scan]);
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), fc.nat({ max: begin.length }), (noise, cut) => {
      const bytes = Uint8Array.from([...begin.subarray(0, cut), ...noise]);
      const before = [...bytes];
      hideExif(bytes);
      expect(bytes).toHaveLength(before.length);
      before.forEach((byte, index) => {
        if (byte !== bytes[index]) expect([byte, bytes[index]]).toEqual([0x45, 0]);
      });
    }),
  );
});
