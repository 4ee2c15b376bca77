import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ExifTool } from 'exiftool-vendored';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasShared, sharedPath } from '../../test/shared.ts';
import { cameraJpeg } from '../../test/vectors/formats/jpeg-fixtures.ts';
import { defaultExifToolLimits, ExifToolReader } from './exiftool-reader.ts';

const reader = new ExifToolReader();
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-exiftool-'));
});
afterAll(async () => {
  await reader.close();
  await rm(folder, { recursive: true });
});

const options = { zoneOffsetMinutes: 0 };
const codeOf = (failure: unknown): unknown =>
  typeof failure === 'object' && failure !== null && 'code' in failure ? failure.code : failure;

test('facts and thumbnail of a small JPEG', async () => {
  const path = join(folder, 'a frame with blanks.jpg');
  await writeFile(path, cameraJpeg(1500, 1000).build());
  expect(await reader.readFacts(path, options)).toEqual({ orientation: 6, widthPx: 1500, heightPx: 1000 });
  const thumbnail = await reader.extractPreview(path);
  expect(thumbnail?.subarray(0, 2)).toEqual(Buffer.from([0xff, 0xd8]));
});

test('program, bracket and white balance are those of Exif, as ExifTool itself wrote them', async () => {
  const path = join(folder, 'settings.jpg');
  await writeFile(path, cameraJpeg(1500, 1000).build());
  const tool = new ExifTool();
  const written = ['ExposureProgram#=3', 'ExposureMode#=2', 'WhiteBalance#=0', 'CompressedBitsPerPixel#=4'];
  await tool.write(path, {}, { writeArgs: written.map((each) => `-ExifIFD:${each}`) });
  await tool.end();
  expect(await reader.readFacts(path, options)).toMatchObject({
    exposureProgram: 3,
    inBracket: true,
    whiteBalance: 'auto',
    compressedBitsPerPixel: 4,
  });
});

test('where the camera focused is found among image regions, as ExifTool itself wrote them', async () => {
  const path = join(folder, 'regions.jpg');
  await writeFile(path, cameraJpeg(1500, 1000).build());
  expect(await reader.readFocusRegion(path)).toBeNull();
  const of = (type: string, x: number): string =>
    `{Area={X=${x},Y=0.75,W=0.1,H=0.2,Unit=normalized},Type=${type},FocusUsage=Evaluated|, Used}`;
  const list = `RegionList=[${of('Face', 0.6)},${of('Focus', 0.4)}]`;
  const tool = new ExifTool();
  await tool.write(
    path,
    {},
    { writeArgs: [`-XMP-mwg-rs:RegionInfo={AppliedToDimensions={W=1500,H=1000,Unit=pixel},${list}}`] },
  );
  await tool.end();
  const found = await reader.readFocusRegion(path);
  expect(found?.left).toBeCloseTo(0.35, 9);
  expect(found?.bottom).toBeCloseTo(0.85, 9);
});

test('a file that is no picture has no facts and no preview', async () => {
  const path = join(folder, 'notes.txt');
  await writeFile(path, 'mug, jug, bowl');
  expect(await reader.readFacts(path, options)).toEqual({});
  expect(await reader.extractPreview(path)).toBeNull();
});

test('a preview past the bound is left where it is', async () => {
  const small = new ExifToolReader({ ...defaultExifToolLimits, previewBytesMax: 20 });
  const path = join(folder, 'bounded.jpg');
  await writeFile(path, cameraJpeg(1500, 1000).build());
  expect(await small.extractPreview(path)).toBeNull();
  await small.close();
});

test.each(['missing.dng', 'two\nlines.jpg'])(
  '%j is unreadable, and the next question is answered',
  async (name) => {
    const failure = await reader.readFacts(join(folder, name), options).catch(codeOf);
    expect(failure).toBe('metadata-unreadable');
    const path = join(folder, 'next.jpg');
    await writeFile(path, cameraJpeg(10, 10).build());
    expect((await reader.readFacts(path, options)).orientation).toBe(6);
  },
);

test('an aborted question rejects with the reason of the signal', async () => {
  const path = join(folder, 'aborted.jpg');
  await writeFile(path, cameraJpeg(10, 10).build());
  const controller = new AbortController();
  const answer = reader.readFacts(path, { ...options, signal: controller.signal });
  controller.abort(new Error('enough'));
  await expect(answer).rejects.toThrow('enough');
});

test('a question that takes too long is given up', async () => {
  const hurried = new ExifToolReader({ ...defaultExifToolLimits, taskMs: 10 });
  const failures = await Promise.all(
    Array.from({ length: 3 }, () => hurried.readFacts('/dev/stdin', options).catch(codeOf)),
  );
  await hurried.close();
  expect(failures).toEqual(['metadata-timed-out', 'metadata-timed-out', 'metadata-timed-out']);
});

test('a closed reader says so', async () => {
  const closed = new ExifToolReader();
  await closed.close();
  expect(await closed.readFacts(join(folder, 'x.jpg'), options).catch(codeOf)).toBe('metadata-closed');
  await closed.close();
});

describe.skipIf(!hasShared())('real files', () => {
  test('what the structure does not say comes from the maker’s notes', async () => {
    const facts = await reader.readFacts(sharedPath('samples/head-only-7.cr3'), options);
    expect(facts).toMatchObject({ widthPx: 6720, heightPx: 4480, orientation: 6, fNumber: 4 });
    expect(facts.lensModel).toBeDefined();
    expect(facts.shutter?.offsetKnown).toBe(true);
  });

  test('a preview that is announced but cut off leaves the next smaller one', async () => {
    // PreviewImage ends at byte 686,053 of a head of 102,400; ThumbnailImage has 3,598 bytes (raw notes, table).
    expect((await reader.extractPreview(sharedPath('samples/head-only-1.arw')))?.length).toBe(3598);
  });
});
