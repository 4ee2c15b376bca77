import { expect, test } from 'vitest';
import { cameraBody } from './camera-body.ts';
import { settings } from './camera-model.ts';
import { writeJpegFile } from './jpeg-file.ts';

const capture = {
  body: cameraBody(2),
  shutter: {
    local: { year: 2026, month: 10, day: 1, hours: 8, minutes: 4, seconds: 5, ms: 120 },
    offsetMinutes: 120,
  },
  settings: { ...settings, autoBalance: false },
  orientation: 1,
} as const;

/** SOI, APP0 of 16 bytes (JFIF 1.02 section 4), and something that stands for the rest. */
const jfif = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16, ...Array(14).fill(7), 0xff, 0xdb, 1, 2, 3);
const plain = Uint8Array.of(0xff, 0xd8, 0xff, 0xdb, 1, 2, 3);

const file = (bytes: Uint8Array, thumbnailBytes: number): Uint8Array =>
  writeJpegFile({
    picture: { bytes, widthPx: 6000, heightPx: 4000 },
    thumbnail: { bytes: new Uint8Array(thumbnailBytes), widthPx: 160, heightPx: 120 },
    capture,
  });

test('Exif takes the place of the encoder’s own APP0, and the rest follows untouched', () => {
  const written = file(jfif, 10);
  // Exif 2.32 section 4.7.2: SOI, APP1, length, "Exif" and two NULs.
  expect([...written.subarray(0, 4)]).toEqual([0xff, 0xd8, 0xff, 0xe1]);
  const length = (written[4] ?? 0) * 256 + (written[5] ?? 0);
  expect(String.fromCharCode(...written.subarray(6, 12))).toBe('Exif\0\0');
  expect([...written.subarray(4 + length)]).toEqual([0xff, 0xdb, 1, 2, 3]);
  expect(file(plain, 10)).toEqual(written);
});

test('a thumbnail that just fits the segment is taken, one byte more is refused', () => {
  const around = file(plain, 0).length - 9; // all of the segment but its marker, and none of the picture
  const most = 65_535 - around;
  const written = file(plain, most);
  expect([written[4], written[5]]).toEqual([0xff, 0xff]);
  expect(() => file(plain, most + 1)).toThrow(RangeError);
});
