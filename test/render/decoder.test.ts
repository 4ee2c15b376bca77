import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import type { DecodedRaw, RawHints } from '../../src/develop/index.ts';
import { planDevelop } from '../../src/develop/plan.ts';
import { inspect, sourceOfBytes } from '../../src/formats/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { dngHints } from '../../src/workers/dng-hints.ts';
import { dngSamples } from '../../src/workers/dng-samples.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { dcrawEmuLinear, hasDcrawEmu } from './dcraw-emu.ts';
import { type DngOptions, writeDng } from './dng-writer.ts';
import { encodeLosslessJpeg } from './lossless-jpeg.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-decoder-'));
afterAll(() => rmSync(folder, { recursive: true }));
const decoder = librawDecoder();

function decode(options: DngOptions, hints?: RawHints): Promise<DecodedRaw> {
  const path = join(folder, 'x.dng');
  writeFileSync(path, writeDng(options));
  return decodeRaw(decoder, path, hints);
}

/** A mosaic without a pattern of its own: every value says where it lies. */
function ramp(widthPx: number, heightPx: number): Pick<DngOptions, 'widthPx' | 'heightPx' | 'values'> {
  return {
    widthPx,
    heightPx,
    values: Uint16Array.from({ length: widthPx * heightPx }, (_, index) => 600 + ((index * 7) % 15_000)),
  };
}

test('the mosaic comes back bit for bit, with levels, neutral and orientation as the tags say', async () => {
  const source = ramp(64, 48);
  const { mosaic, issues } = await decode({ ...source, orientation: 6 });
  expect(mosaic.values).toEqual(source.values);
  expect(mosaic).toMatchObject({
    widthPx: 64,
    heightPx: 48,
    filters: [0, 1, 1, 2],
    blackLevels: [512, 512, 512, 512],
    whiteLevel: 16_383,
    orientation: 6,
  });
  // AsShotNeutral 0.5, 1, 0.625: multipliers are its reciprocals, green 1 (DNG 1.4).
  expect(mosaic.asShotMultipliers[0]).toBeCloseTo(2, 5);
  expect(mosaic.asShotMultipliers[2]).toBeCloseTo(1.6, 5);
  expect(issues).toEqual([]);
});

test('a mosaic as lossless JPEG comes back bit for bit', async () => {
  const source = ramp(64, 48);
  const losslessJpeg = encodeLosslessJpeg(source.values, 64, 48);
  expect((await decode({ ...source, losslessJpeg })).mosaic.values).toEqual(source.values);
});

// LibRaw is the outside judge: the same file, once with our samples and once with its own.
test.each<[string, Partial<DngOptions>]>([
  ['as it lies', {}],
  ['turned', { orientation: 6 }],
  ['with masked pixels and a crop', { activeArea: [4, 6, 44, 60], crop: [2, 2, 40, 30], orientation: 8 }],
])('samples that are unpacked here are those of LibRaw: %s', async (_, more) => {
  const source = ramp(64, 48);
  const bytes = writeDng({ ...source, losslessJpeg: encodeLosslessJpeg(source.values, 64, 48), ...more });
  const { tags } = inspect(sourceOfBytes(bytes));
  if (tags.dng === null) throw new Error('the file is a DNG');
  const unpack = vi.fn(dngSamples(tags.dng, bytes));
  const hints = dngHints(tags, null);
  const ours = await decoder.decode(bytes, hints, unpack);
  expect(unpack).toHaveReturnedWith(expect.any(Uint16Array));
  const theirs = await decoder.decode(bytes, hints);
  expect(ours).toEqual(theirs);
});

test('what is packed in another way is left to LibRaw', async () => {
  const source = ramp(64, 48);
  const losslessJpeg = encodeLosslessJpeg(source.values, 64, 48);
  // T.81, B.2.3: behind marker, length, count and two components stands the predictor.
  const scan = losslessJpeg.findIndex((byte, at) => byte === 0xff && losslessJpeg[at + 1] === 0xda);
  losslessJpeg[scan + 9] = 2;
  const bytes = writeDng({ ...source, losslessJpeg });
  const { dng } = inspect(sourceOfBytes(bytes)).tags;
  expect(dng?.stored?.compression).toBe(7);
  expect(dng && dngSamples(dng, bytes)(64, 48)).toBeNull();
  expect((await decode({ ...source, losslessJpeg })).mosaic.values.length).toBe(64 * 48);
});

test.each([[[0, 1, 1, 2]], [[2, 1, 1, 0]], [[1, 0, 2, 1]], [[1, 2, 0, 1]]])(
  'filters %j are where CFAPattern puts them',
  async (pattern) => {
    expect((await decode({ ...ramp(32, 32), pattern })).mosaic.filters).toEqual(pattern);
  },
);

test.each([1, 2, 3, 4, 5, 6, 7, 8])(
  'Exif orientation %i survives LibRaw’s own numbering',
  async (orientation) => {
    expect((await decode({ ...ramp(32, 32), orientation })).mosaic.orientation).toBe(orientation);
  },
);

test('black levels that differ within the block come from the tags, where LibRaw keeps silent', async () => {
  const blackLevels = [500, 520, 530, 540];
  expect((await decode({ ...ramp(32, 32), blackLevels })).mosaic.blackLevels).toEqual(blackLevels);
});

test('DefaultCrop is taken, its corner moved to an even place so that filters stay', async () => {
  const source = ramp(64, 48);
  const { mosaic } = await decode({ ...source, crop: [5, 2, 50, 40] });
  expect(mosaic).toMatchObject({ widthPx: 50, heightPx: 40, filters: [0, 1, 1, 2] });
  expect(mosaic.values[0]).toBe(source.values[2 * 64 + 4]);
});

test('a crop that does not fit is left out', async () => {
  expect((await decode({ ...ramp(64, 48), crop: [20, 0, 50, 40] })).mosaic).toMatchObject({
    widthPx: 64,
    heightPx: 48,
  });
});

test('what the caller knows better overrides the file', async () => {
  const { mosaic } = await decode(ramp(32, 32), {
    blackLevels: [1, 2, 3, 4],
    whiteLevel: 15_000,
    orientation: 3,
    asShotNeutral: [1, 1, 0.5],
  });
  expect(mosaic).toMatchObject({ blackLevels: [1, 2, 3, 4], whiteLevel: 15_000, orientation: 3 });
  expect(mosaic.asShotMultipliers).toEqual([1, 1, 2]);
});

test.each([
  ['stated as 0.42', { baselineExposure: 0.42 }, 0.42],
  ['stated as 0', { baselineExposure: 0 }, 0],
  // ISO 12232: saturation 78 / 10 of a metered 18 % grey, half a stop above a white diffuse surface.
  ['not stated', {}, 0.5],
])('the headroom above diffuse white, %s', async (_, option, expected) => {
  expect((await decode({ ...ramp(32, 32), ...option })).mosaic.baselineExposureEv).toBeCloseTo(expected, 4);
});

test('a file without a stated balance is balanced for daylight, and says so', async () => {
  const { mosaic, issues } = await decode({ ...ramp(32, 32), asShotNeutral: null });
  expect(issues).toEqual([{ code: 'develop.no-as-shot-balance', args: {} }]);
  // The matrix makes D65 white camera 0.5, 1, 0.625.
  expect(mosaic.asShotMultipliers[0]).toBeCloseTo(2, 1);
  expect(mosaic.asShotMultipliers[2]).toBeCloseTo(1.6, 1);
});

test('a neutral more than six stops apart is no neutral, one just below is', async () => {
  const unknown = [{ code: 'develop.no-as-shot-balance', args: {} }];
  expect((await decode({ ...ramp(32, 32), asShotNeutral: [0.0155, 1, 1] })).issues).toEqual(unknown);
  expect((await decode({ ...ramp(32, 32), asShotNeutral: [0.0158, 1, 1] })).issues).toEqual([]);
});

test('levels that make no range are refused', async () => {
  await expect(decode({ ...ramp(32, 32), blackLevels: [9000], whiteLevel: 9000 })).rejects.toMatchObject({
    code: expect.stringMatching(/^raw-/),
  });
});

test('a 2x2 layout whose greens are no diagonal is no mosaic of ours, which is an error of its own', async () => {
  await expect(decode({ ...ramp(36, 36), pattern: [0, 2, 1, 1] })).rejects.toMatchObject({
    code: 'raw-unsupported-mosaic',
  });
});

describe.skipIf(!hasDcrawEmu())('the file the tests write', () => {
  test('is read by LibRaw’s command line as well', () => {
    const path = join(folder, 'outside.dng');
    writeFileSync(path, writeDng(ramp(64, 48)));
    expect(dcrawEmuLinear(path, 1)).toMatchObject({ widthPx: 32, heightPx: 24 });
  });
});

test('a picture too small for the decoder is told as that, not as an unknown camera', async () => {
  await expect(decode(ramp(24, 20))).rejects.toMatchObject({ code: 'raw-too-small' });
  expect((await decode(ramp(24, 22))).mosaic).toMatchObject({ widthPx: 24, heightPx: 22 });
});

test('a raw without any matrix, of a make that no table knows, rests on no colours, and rendering says so', async () => {
  const { mosaic, colours } = await decode({ ...ramp(64, 48), colorMatrix: null });
  expect(colours).toBe('none');
  expect(mosaic.xyzToCamera).toBeNull();
  expect(planDevelop(mosaic).issues).toEqual([{ code: 'develop.no-camera-matrix', args: {} }]);
});
