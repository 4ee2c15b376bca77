import { expect, test } from 'vitest';
import type { CaptureFacts } from '../../facts/index.ts';
import { type FrameSettings, isOfQuality, settingChanges } from './settings-guard.ts';

const reference: CaptureFacts = {
  cameraModel: 'Body',
  cameraSerial: '1',
  exposureTimeS: 1 / 125,
  fNumber: 11,
  sensitivity: 100,
  exposureProgram: 1,
  whiteBalance: 'manual',
  widthPx: 6000,
  heightPx: 4000,
  bitsPerSample: 14,
  compression: 7,
  compressedBitsPerPixel: 4,
};
const raw = (capture: CaptureFacts): FrameSettings => ({ capture, format: 'raw' });
const jpeg = (capture: CaptureFacts): FrameSettings => ({ capture, format: 'jpeg' });
const raws = (more: CaptureFacts) => settingChanges(raw({ ...reference, ...more }), raw(reference));
const jpegs = (more: CaptureFacts) => settingChanges(jpeg({ ...reference, ...more }), jpeg(reference));

test('each setting that was bumped is told with what it was and what it is', () => {
  expect(raws({})).toEqual([]);
  expect(raws({ fNumber: 8 })).toEqual([{ setting: 'aperture', was: 11, is: 8 }]);
  expect(raws({ sensitivity: 400 })).toEqual([{ setting: 'sensitivity', was: 100, is: 400 }]);
  expect(raws({ exposureTimeS: 1 / 60 })).toEqual([{ setting: 'time', was: 1 / 125, is: 1 / 60 }]);
  expect(raws({ whiteBalance: 'auto' })).toEqual([{ setting: 'white-balance', was: 'manual', is: 'auto' }]);
  expect(raws({ exposureProgram: 3 })).toEqual([{ setting: 'program', was: 1, is: 3 }]);
  expect(raws({ widthPx: 3000, heightPx: 2000 })).toEqual([
    { setting: 'size', was: '6000 x 4000', is: '3000 x 2000' },
  ]);
  expect(raws({ bitsPerSample: 12 })).toEqual([{ setting: 'depth', was: 14, is: 12 }]);
  expect(raws({ compression: 34_892 })).toEqual([{ setting: 'compression', was: 7, is: 34_892 }]);
  expect(jpegs({ compressedBitsPerPixel: 2 })).toEqual([{ setting: 'jpeg-compression', was: 4, is: 2 }]);
});

// Nominal apertures of thirds of a stop beside 2^(k/6), ISO 517 (from memory): f/13 is 12.70, f/14 is 14.25.
test('the narrowest click of a dial counts, a nominal figure beside the exact one does not', () => {
  const at = (was: number, is: number): number =>
    settingChanges(raw({ fNumber: is }), raw({ fNumber: was })).length;
  expect([at(13, 14), at(1.1, 1.2), at(3.2, 3.5)]).toEqual([1, 1, 1]);
  expect([at(13, 12.7), at(14, 14.25), at(5.6, 2 ** 2.5), at(11, 2 ** 3.5)]).toEqual([0, 0, 0, 0]);
  const time = (was: number, is: number): number =>
    settingChanges(raw({ exposureTimeS: is }), raw({ exposureTimeS: was })).length;
  expect([time(1 / 125, 1 / 160), time(1 / 13, 1 / 15)]).toEqual([1, 1]);
  expect([time(1 / 125, 1 / 128), time(1 / 60, 1 / 64)]).toEqual([0, 0]);
});

test('what either file does not say is no change', () => {
  expect(settingChanges(raw({}), raw(reference))).toEqual([]);
  expect(settingChanges(raw(reference), raw({}))).toEqual([]);
  expect(settingChanges({ capture: reference, format: null }, raw(reference))).toEqual([]);
});

test('another body has settings of its own', () => {
  expect(raws({ cameraSerial: '2', fNumber: 8, widthPx: 10 })).toEqual([]);
  expect(raws({ cameraModel: 'Other', fNumber: 8 })).toEqual([]);
});

test('a JPEG for a raw is one change: their sizes and depths are not compared', () => {
  const changes = settingChanges(jpeg({ ...reference, widthPx: 5990, bitsPerSample: 8 }), raw(reference));
  expect(changes).toEqual([{ setting: 'format', was: 'raw', is: 'jpeg' }]);
  expect(changes.every(isOfQuality)).toBe(true);
  expect(raws({ fNumber: 8 }).some(isOfQuality)).toBe(false);
});

test('a JPEG of the same setting may be rounded, its compression is no code of TIFF', () => {
  expect(jpegs({ compressedBitsPerPixel: 4.5, compression: 1 })).toEqual([]);
});
