import fc from 'fast-check';
import { expect, test } from 'vitest';
import { exifMomentOf } from './exif-time.ts';

const noon = '2026:10:01 12:00:00';
const at = (dateTime: string, subSeconds?: string, offset?: string, zoneOffsetMinutes = 0): unknown =>
  exifMomentOf({ dateTime, subSeconds, offset }, zoneOffsetMinutes);

test('an offset that is written outranks the station’s', () => {
  expect(at(noon, undefined, '+02:00', -300)).toEqual({
    atMs: Date.parse('2026-10-01T12:00:00+02:00'),
    offsetKnown: true,
    subSecondsKnown: false,
  });
  expect(at(noon, undefined, '-03:30')).toMatchObject({ atMs: Date.parse('2026-10-01T12:00:00-03:30') });
});

test.each([undefined, '', '      ', '   :  ', '+2:00', '+25:00', '+02:60', 'Z', '+14:01', '-12:01'])(
  'without a readable offset (%j) the clock is read where the station is',
  (offset) => {
    expect(at(noon, undefined, offset, 120)).toEqual({
      atMs: Date.parse('2026-10-01T12:00:00+02:00'),
      offsetKnown: false,
      subSecondsKnown: false,
    });
  },
);

test.each([
  ['7', 700],
  ['70', 700],
  ['70  ', 700],
  ['007', 7],
  ['123456', 123],
  ['999999', 999],
])(
  'the fraction %j is %i ms (Exif 2.32, SubSecTime: digits behind the point, blanks may pad it)',
  (text, ms) => {
    expect(at(noon, text)).toMatchObject({
      atMs: Date.parse('2026-10-01T12:00:00Z') + ms,
      subSecondsKnown: true,
    });
  },
);

test.each(['', '  ', 'x', '-1', '1.5'])('the fraction %j is none', (text) => {
  expect(at(noon, text)).toMatchObject({ atMs: Date.parse('2026-10-01T12:00:00Z'), subSecondsKnown: false });
});

test.each([
  ['    :  :     :  :  ', 'blanks are unknown (Exif 2.32, DateTimeOriginal)'],
  ['0000:00:00 00:00:00', 'zeros'],
  ['2026:13:01 12:00:00', 'no thirteenth month'],
  ['2026:02:29 12:00:00', 'no leap year'],
  ['2100:02:29 12:00:00', 'no leap year either (Gregorian rule)'],
  ['2026:04:31 12:00:00', 'April has 30 days'],
  ['2026:10:01 24:00:00', 'no hour 24'],
  ['2026:10:01 12:60:00', 'no minute 60'],
  ['2026:10:01', 'no time'],
  ['2026-10-01 12:00:00', 'not the Exif form'],
  ['', 'nothing'],
])('%j is no moment: %s', (text) => {
  expect(at(text)).toBeUndefined();
});

test('leap days exist', () => {
  expect(at('2000:02:29 23:59:59')).toMatchObject({ atMs: Date.parse('2000-02-29T23:59:59Z') });
  expect(at('2024:02:29 00:00:00')).toMatchObject({ atMs: Date.parse('2024-02-29T00:00:00Z') });
});

test('any moment and offset agree with the platform', () => {
  const moments = fc.integer({ min: Date.UTC(1970, 0), max: Date.UTC(2100, 0) });
  fc.assert(
    fc.property(moments, fc.integer({ min: -12 * 60, max: 14 * 60 }), (moment, east) => {
      const local = new Date(moment + east * 60_000).toISOString();
      const dateTime = local.slice(0, 19).replaceAll('-', ':').replace('T', ' ');
      const two = (n: number): string => String(n).padStart(2, '0');
      const hours = two(Math.floor(Math.abs(east) / 60));
      const offset = `${east < 0 ? '-' : '+'}${hours}:${two(Math.abs(east) % 60)}`;
      expect(at(dateTime, local.slice(20, 23), offset)).toEqual({
        atMs: moment,
        offsetKnown: true,
        subSecondsKnown: true,
      });
    }),
  );
});
