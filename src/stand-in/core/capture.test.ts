import { expect, test } from 'vitest';
import { exifDateTime, exifOffset, exifSubSeconds } from './capture.ts';

const local = { year: 2026, month: 10, day: 1, hours: 8, minutes: 4, seconds: 5, ms: 7 };

test('a moment is written as Exif 2.32 asks: 19 characters, three figures after the second', () => {
  expect(exifDateTime({ local, offsetMinutes: 0 })).toBe('2026:10:01 08:04:05');
  expect(exifSubSeconds({ local, offsetMinutes: 0 })).toBe('007');
});

test.each([
  [0, '+00:00'],
  [120, '+02:00'],
  [-210, '-03:30'],
  [345, '+05:45'],
])('an offset of %i minutes is written %s (Exif 2.31 OffsetTimeOriginal)', (offsetMinutes, text) => {
  expect(exifOffset({ local, offsetMinutes })).toBe(text);
});
