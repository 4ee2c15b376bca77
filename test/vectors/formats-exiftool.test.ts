import { readdirSync, readFileSync } from 'node:fs';
import { ExifTool } from 'exiftool-vendored';
import { afterAll, describe, expect, test } from 'vitest';
import { inspect, sourceOfBytes } from '../../src/formats/index.ts';
import { captureFactsOf } from '../../src/metadata/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

/** The judge is ExifTool 13 (exiftool-vendored 35.21.0), asked for figures (`-n`) of exactly these groups and tags. */
const tool = new ExifTool({ maxProcs: 1, taskRetries: 0 });
afterAll(() => tool.end());

const folders = ['samples', 'reference/metadata', 'reference/metadata/orientation'];
const files = hasShared()
  ? folders.flatMap((folder) =>
      readdirSync(sharedPath(folder))
        .filter((name) => /\.(arw|cr2|cr3|dng|nef|gpr|jpg)$/.test(name))
        .map((name) => `${folder}/${name}`),
    )
  : [];

async function report(file: string, tags: readonly string[]): Promise<Record<string, unknown>> {
  const read: unknown = await tool.readRaw(sharedPath(file), {
    readArgs: ['-n', ...tags.map((tag) => `-${tag}`)],
  });
  return typeof read === 'object' && read !== null ? { ...read } : {};
}

/** ExifTool separates the figures of a list by blanks. */
const figures = (value: unknown): number[] | undefined =>
  value === undefined ? undefined : String(value).split(' ').map(Number);

/** ExifTool leaves a directory at the first value that lies past the end of the file; this head has one such. */
const isLeftByExifTool = (file: string): boolean => file.endsWith('head-only-6.dng');

/** ExifTool prints ten significant digits. */
const printedDigits = 9;

describe.skipIf(!hasShared())('tags agree with ExifTool', () => {
  test.each(files)('%s: camera, exposure, time', async (file) => {
    const { tags } = inspect(sourceOfBytes(readFileSync(sharedPath(file))));
    const said = await report(file, [
      'IFD0:Make',
      'IFD0:Model',
      'IFD0:Orientation',
      'ExifIFD:LensModel',
      'ExifIFD:ExposureTime',
      'ExifIFD:FNumber',
      'ExifIFD:ISO',
      'ExifIFD:FocalLength',
      'ExifIFD:ExposureProgram',
      'ExifIFD:ExposureMode',
      'ExifIFD:WhiteBalance',
      'ExifIFD:CompressedBitsPerPixel',
      'EXIF:DateTimeOriginal',
      'ExifIFD:SubSecTimeOriginal',
      'ExifIFD:OffsetTimeOriginal',
    ]);
    const text = (value: unknown): string => String(value ?? '').trim();
    expect(text(tags.make)).toBe(text(said.Make));
    expect(text(tags.model)).toBe(text(said.Model));
    expect(text(tags.lensModel)).toBe(text(said.LensModel));
    if (!isLeftByExifTool(file)) expect(text(tags.dateTimeOriginal)).toBe(text(said.DateTimeOriginal));
    expect(text(tags.subSecTimeOriginal)).toBe(text(said.SubSecTimeOriginal));
    expect(text(tags.offsetTimeOriginal)).toBe(text(said.OffsetTimeOriginal));
    expect(tags.orientation).toBe(said.Orientation);
    for (const [ours, theirs] of [
      [tags.exposureTime, said.ExposureTime],
      [tags.fNumber, said.FNumber],
      [tags.photographicSensitivity, said.ISO],
      [tags.focalLength, said.FocalLength],
      [tags.exposureProgram, said.ExposureProgram],
      [tags.exposureMode, said.ExposureMode],
      [tags.whiteBalance, said.WhiteBalance],
      [tags.compressedBitsPerPixel, said.CompressedBitsPerPixel],
    ]) {
      if (typeof theirs === 'number') expect(ours).toBeCloseTo(theirs, printedDigits);
      else expect(Number.isFinite(ours)).toBe(false);
    }
  });

  const dngs = files.filter((file) => /\.(dng|gpr)$/.test(file) && !isLeftByExifTool(file));
  test.each(dngs)('%s: levels, colour, areas', async (file) => {
    const { dng } = inspect(sourceOfBytes(readFileSync(sharedPath(file)))).tags;
    const said = await report(file, [
      'BlackLevel',
      'WhiteLevel',
      'CFAPattern2',
      'AsShotNeutral',
      'ColorMatrix1',
      'ColorMatrix2',
      'CalibrationIlluminant1',
      'CalibrationIlluminant2',
      'ActiveArea',
      'DefaultCropOrigin',
      'DefaultCropSize',
      'BaselineExposure',
    ]);
    expect(dng).not.toBeNull();
    const pairs: readonly (readonly [string, readonly number[] | undefined])[] = [
      ['BlackLevel', dng?.blackLevel],
      ['WhiteLevel', dng?.whiteLevel],
      ['CFAPattern2', dng?.cfaPattern],
      ['AsShotNeutral', dng?.asShotNeutral],
      ['ColorMatrix1', dng?.colorMatrix1],
      ['ColorMatrix2', dng?.colorMatrix2],
      ['ActiveArea', dng?.activeArea],
      ['DefaultCropOrigin', dng?.defaultCropOrigin],
      ['DefaultCropSize', dng?.defaultCropSize],
    ];
    for (const [name, ours] of pairs) {
      const theirs = figures(said[name]);
      expect(ours?.length, name).toBe(theirs?.length);
      for (const [i, value] of (theirs ?? []).entries())
        expect(ours?.[i], name).toBeCloseTo(value, printedDigits);
    }
    expect(dng?.calibrationIlluminant1).toBe(said.CalibrationIlluminant1);
    expect(dng?.calibrationIlluminant2).toBe(said.CalibrationIlluminant2);
    // "undef" is 0/0.
    if (said.BaselineExposure === 'undef') expect(dng?.baselineExposure).toBeNaN();
    else expect(dng?.baselineExposure).toBe(said.BaselineExposure);
  });

  test('a real raw without exposure data has no exposure, rather than one of zero', () => {
    const facts = captureFactsOf(
      inspect(sourceOfBytes(readFileSync(sharedPath('samples/real-chart-4mp.dng')))),
      {
        zoneOffsetMinutes: 0,
      },
    );
    expect(Object.keys(facts).sort()).toEqual([
      'bitsPerSample',
      'cameraMake',
      'cameraModel',
      'compression',
      'heightPx',
      'orientation',
      'widthPx',
    ]);
  });
});
