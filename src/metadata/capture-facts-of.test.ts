import { expect, test } from 'vitest';
import type { CaptureFacts } from '../facts/index.ts';
import { noTags, type PictureTags } from '../formats/index.ts';
import { captureFactsOf } from './capture-facts-of.ts';
import { factsOfReport } from './facts-of-report.ts';

const factsOf = (tags: Partial<PictureTags>): CaptureFacts =>
  captureFactsOf(
    { tags: { ...noTags, ...tags }, pictureWidthPx: null, pictureHeightPx: null },
    { zoneOffsetMinutes: 0 },
  );

test('without tags there are no facts, and no empty keys', () => {
  expect(Object.keys(factsOf({}))).toEqual([]);
});

test.each([0, Number.NaN, Number.POSITIVE_INFINITY, -1])('the figure %d is unknown', (figure) => {
  expect(
    factsOf({ exposureTime: figure, fNumber: figure, focalLength: figure, photographicSensitivity: figure }),
  ).toEqual({});
});

test('APEX values stand in where the plain ones are not there (Exif 2.32 annex C: Tv = -log2 t, Av = 2 log2 N)', () => {
  // 1/125 s is Tv 7 by the standard's rounding, f/8 is Av 6 exactly.
  expect(factsOf({ shutterSpeedValue: 7, apertureValue: 6 })).toEqual({ exposureTimeS: 1 / 128, fNumber: 8 });
});

test('a camera that writes zero does not know: its APEX placeholder is not taken for an exposure', () => {
  expect(factsOf({ exposureTime: 0, shutterSpeedValue: 0, fNumber: 0, apertureValue: 0 })).toEqual({});
});

test('sensitivities past 16 bits are taken from the longer tags (Exif 2.32 section 4.6.5, annex G)', () => {
  expect(factsOf({ photographicSensitivity: 100, recommendedExposureIndex: 125 }).sensitivity).toBe(100);
  expect(factsOf({ photographicSensitivity: 65_535, recommendedExposureIndex: 102_400 }).sensitivity).toBe(
    102_400,
  );
  expect(factsOf({ photographicSensitivity: 65_535 }).sensitivity).toBe(65_535);
});

// Exif 2.32 tables 7 and 8: what is not defined or reserved is unknown.
test('program, bracket and white balance mean what Exif says, and nothing else', () => {
  expect(factsOf({ exposureProgram: 3, exposureMode: 2, whiteBalance: 0 })).toEqual({
    exposureProgram: 3,
    inBracket: true,
    whiteBalance: 'auto',
  });
  expect(factsOf({ exposureProgram: 1, exposureMode: 1, whiteBalance: 1 })).toEqual({
    exposureProgram: 1,
    whiteBalance: 'manual',
  });
  expect(factsOf({ exposureProgram: 0, exposureMode: 0, whiteBalance: 2 })).toEqual({});
  expect(factsOf({ exposureProgram: 9, compressedBitsPerPixel: 0, bitsPerSample: 0 })).toEqual({});
  expect(factsOf({ compression: 7, bitsPerSample: 14, compressedBitsPerPixel: 4 })).toEqual({
    compression: 7,
    bitsPerSample: 14,
    compressedBitsPerPixel: 4,
  });
});

test('orientations outside 1 to 8 are unknown', () => {
  expect([0, 1, 8, 9, 1.5].map((orientation) => factsOf({ orientation }).orientation)).toEqual([
    undefined,
    1,
    8,
    undefined,
    undefined,
  ]);
});

test('the shutter is DateTimeOriginal with its own fraction and offset, else DateTimeDigitized with its', () => {
  const tags = {
    dateTime: '2026:10:02 08:00:00',
    dateTimeOriginal: '2026:10:01 12:00:00',
    subSecTimeOriginal: '25',
    offsetTime: '+09:00',
    offsetTimeOriginal: '+02:00',
    dateTimeDigitized: '2026:10:01 12:00:05',
    offsetTimeDigitized: '+01:00',
  };
  expect(factsOf(tags).shutter?.atMs).toBe(Date.parse('2026-10-01T12:00:00.250+02:00'));
  expect(factsOf({ ...tags, dateTimeOriginal: '    :  :     :  :  ' }).shutter?.atMs).toBe(
    Date.parse('2026-10-01T12:00:05+01:00'),
  );
  expect(factsOf({ dateTime: tags.dateTime }).shutter).toBeUndefined();
});

test('OffsetTime serves where the file was changed when it was taken, and only there', () => {
  const tags = { dateTimeOriginal: '2026:10:01 12:00:00', offsetTime: '+02:00' };
  expect(factsOf({ ...tags, dateTime: '2026:10:01 12:00:00' }).shutter?.offsetKnown).toBe(true);
  expect(factsOf({ ...tags, dateTime: '2026:10:02 12:00:00' }).shutter?.offsetKnown).toBe(false);
});

test('a report of another reader gives the same facts', () => {
  const report = {
    Make: 'Quillmere',
    Model: 100, // JSON makes numbers of texts made of digits
    LensID: 'Unknown (7)',
    ExposureTime: 0.008,
    FNumber: 'undef',
    ISO: '400',
    DateTimeOriginal: '2026:10:01 12:00:00.25+02:00',
    ImageSize: '6000 4000',
    Orientation: 6,
    Surprise: { deep: [] },
  };
  expect(factsOfReport(report, { zoneOffsetMinutes: 0 })).toEqual({
    cameraMake: 'Quillmere',
    cameraModel: '100',
    exposureTimeS: 0.008,
    sensitivity: 400,
    shutter: {
      atMs: Date.parse('2026-10-01T12:00:00.250+02:00'),
      offsetKnown: true,
      subSecondsKnown: true,
    },
    orientation: 6,
    widthPx: 6000,
    heightPx: 4000,
  });
  expect(factsOfReport({}, { zoneOffsetMinutes: 0 })).toEqual({});
});
