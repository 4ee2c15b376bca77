import { expect, test } from 'vitest';
import { embedJpegProfile } from './jpeg-profile.ts';

const soi = [0xff, 0xd8];
// T.871, 10.1: APP0, length 16, "JFIF", 0, version 1.02, no unit, 1 x 1, no thumbnail.
const jfif = [0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 2, 0, 0, 1, 0, 1, 0, 0];
const rest = [0xff, 0xdb, 0, 2, 0xff, 0xd9];
const profile = [1, 2, 3];
// ICC.1:2022, annex B.4: APP2, length 2 + 14 + 3, "ICC_PROFILE", 0, 1 of 1.
const segment = [0xff, 0xe2, 0, 19, ...new TextEncoder().encode('ICC_PROFILE'), 0, 1, 1, ...profile];

test('the profile comes behind SOI and JFIF', () => {
  const bytes = embedJpegProfile(Uint8Array.from([...soi, ...jfif, ...rest]), Uint8Array.from(profile));
  expect([...bytes]).toEqual([...soi, ...jfif, ...segment, ...rest]);
});

test('without JFIF it comes right behind SOI', () => {
  const bytes = embedJpegProfile(Uint8Array.from([...soi, ...rest]), Uint8Array.from(profile));
  expect([...bytes]).toEqual([...soi, ...segment, ...rest]);
});

test('a profile of one segment fits, one byte more does not', () => {
  const jpeg = Uint8Array.from([...soi, ...rest]);
  expect(embedJpegProfile(jpeg, new Uint8Array(65_519))).toHaveLength(jpeg.length + 65_537);
  expect(() => embedJpegProfile(jpeg, new Uint8Array(65_520))).toThrow(RangeError);
});

test('what is no JPEG is refused', () => {
  expect(() => embedJpegProfile(Uint8Array.from([0x89, 0x50]), Uint8Array.from(profile))).toThrow(RangeError);
});
