import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { inspect, sourceOfBytes } from '../../src/formats/index.ts';
import { type Frame, fileKinds, renderFrame } from '../../src/stand-in/index.ts';

/**
 * Every kind of file the stand-in writes, read by programs that are not ours: ExifTool (structure, metadata), LibRaw's
 * command line (mosaic), libvips through sharp (JPEG). The first two come with Debian (libimage-exiftool-perl,
 * libraw-bin).
 */
let folder: string;
let pressed: Frame;
let plain: Frame;

/** A moment whose milliseconds end in zero: Exif's SubSecTime is a decimal fraction, and ExifTool prints it shortened. */
const shutterMs = Date.UTC(2026, 9, 1, 8, 4, 5, 120);
const sizeMegapixels = 0.1;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setside-files-'));
  pressed = await renderFrame({ shot: 'jug', sizeMegapixels, shutterMs });
  plain = await renderFrame({ shot: 'jug', sizeMegapixels, shutterMs, compression: 'none' });
  for (const { extension, bytes } of pressed.files) writeFileSync(path(`pressed.${extension}`), bytes);
  writeFileSync(path('plain.DNG'), plain.bytes);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const path = (name: string): string => join(folder, name);

test('what is read below is every kind of file there is', () => {
  expect(pressed.files.map(({ kind }) => kind).sort()).toEqual([...fileKinds].sort());
});

test.each(['pressed.DNG', 'plain.DNG', 'pressed.JPG', 'pressed.XMP'])(
  'ExifTool finds nothing to complain of in %s',
  (name) => {
    const report = exiftool('-validate', '-warning', '-error', '-a', path(name));
    expect(report).toMatchObject({ Validate: 'OK' });
    expect(report).not.toHaveProperty('Warning');
    expect(report).not.toHaveProperty('Error');
  },
);

test('LibRaw gives the mosaic back bit for bit, compressed or not', () => {
  for (const [name, frame] of [
    ['pressed.DNG', pressed],
    ['plain.DNG', plain],
  ] as const) {
    execFileSync('unprocessed_raw', ['-q', path(name)]);
    expect(readPgm(readFileSync(`${path(name)}.pgm`)), name).toEqual(frame.mosaic);
  }
  expect(pressed.mosaic).toEqual(plain.mosaic);
});

test('compressed and not, LibRaw makes the same picture of them', () => {
  const develop = (name: string): Buffer =>
    execFileSync('dcraw_emu', ['-w', '-Z', '-', path(name)], { maxBuffer: 1e8 });
  const { widthPx, heightPx } = pressed.truth;
  expect(develop('pressed.DNG').length).toBeGreaterThan(widthPx * heightPx * 3);
  expect(develop('pressed.DNG').equals(develop('plain.DNG'))).toBe(true);
  expect(pressed.bytes.length).toBeLessThan(plain.bytes.length * 0.75);
});

test('three previews from small to full size lie in front of the raw data, each a JPEG of the announced size', async () => {
  const tags = exiftool('-n', '-G1', path('pressed.DNG'));
  let end = 0;
  for (const group of ['IFD0', 'SubIFD1', 'SubIFD2']) {
    const start = Number(tags[`${group}:PreviewImageStart`] ?? tags[`${group}:JpgFromRawStart`]);
    const length = Number(tags[`${group}:PreviewImageLength`] ?? tags[`${group}:JpgFromRawLength`]);
    expect(start, group).toBeGreaterThanOrEqual(end);
    end = start + length;
    const found = await sharp(pressed.bytes.subarray(start, end)).metadata();
    expect([found.format, found.width, found.height], group).toEqual([
      'jpeg',
      tags[`${group}:ImageWidth`],
      tags[`${group}:ImageHeight`],
    ]);
  }
  expect(tags['SubIFD2:ImageWidth']).toBe(pressed.truth.widthPx);
  expect(end).toBeLessThanOrEqual(Number(tags['SubIFD:StripOffsets']));
});

test('raw, JPEG and sidecar say the same about the moment, the camera and how it was held', () => {
  for (const name of ['pressed.DNG', 'pressed.JPG', 'pressed.XMP']) {
    const tags = exiftool('-n', path(name));
    const moment = String(tags.SubSecDateTimeOriginal ?? tags.DateTimeOriginal);
    expect(Date.parse(moment.replace(/^(\d+):(\d+):/, '$1-$2-').replace(' ', 'T')), name).toBe(shutterMs);
    expect(tags, name).toMatchObject({ Make: 'Setside', Model: 'Stand-in', Orientation: 6 });
    expect(tags.SerialNumber ?? tags.BodySerialNumber, name).toBe('QM-0001');
  }
});

// DCF 2.0 (CIPA DC-009): a basic file names itself R98 and carries a thumbnail of 160 x 120.
test('the JPEG is a DCF basic file with the size of the sensor, and shows what the raw shows', async () => {
  const tags = exiftool('-n', path('pressed.JPG'));
  expect(tags).toMatchObject({
    InteropIndex: 'R98',
    ExifImageWidth: pressed.truth.widthPx,
    ExifImageHeight: pressed.truth.heightPx,
    ColorSpace: 1,
  });
  const thumbnail = execFileSync('exiftool', ['-b', '-ThumbnailImage', path('pressed.JPG')]);
  expect(await sharp(thumbnail).metadata()).toMatchObject({ format: 'jpeg', width: 160, height: 120 });
  const [jpeg, raw] = await Promise.all([
    greyOf(readFileSync(path('pressed.JPG'))),
    // -t 0: as the sensor lies, as the JPEG is stored.
    greyOf(
      execFileSync('dcraw_emu', ['-w', '-T', '-t', '0', '-Z', '-', path('pressed.DNG')], { maxBuffer: 1e8 }),
    ),
  ]);
  expect(correlation(jpeg, raw)).toBeGreaterThan(0.98);
});

test('formats finds each file whole, and each cut one cut, wherever it is cut', () => {
  for (const frame of [pressed, plain]) {
    for (const { kind, bytes } of frame.files.filter((file) => file.kind !== 'xmp')) {
      expect(inspect(sourceOfBytes(bytes)).wholeness, kind).toMatchObject({ kind: 'whole' });
      for (const share of [0.02, 0.1, 0.3, 0.6, 0.99]) {
        const cut = bytes.subarray(0, Math.floor(bytes.length * share));
        expect(inspect(sourceOfBytes(cut)).wholeness, `${kind} ${share}`).toMatchObject({ kind: 'cut' });
      }
      const lastByteMissing = bytes.subarray(0, bytes.length - 1);
      expect(inspect(sourceOfBytes(lastByteMissing)).wholeness.kind, kind).toBe('cut');
    }
  }
});

function exiftool(...args: string[]): Record<string, unknown> {
  const [report] = JSON.parse(execFileSync('exiftool', ['-j', ...args], { encoding: 'utf8' })) as unknown[];
  // ExifTool's -j prints one object per file.
  return report as Record<string, unknown>;
}

/** The values of a Netpbm grey map, 16 bit, big endian (man 5 pgm). */
function readPgm(bytes: Buffer): Uint16Array {
  const header = /^P5\s+(\d+)\s+(\d+)\s+65535\s/.exec(bytes.toString('latin1', 0, 100));
  if (header === null) throw new Error('expected a 16-bit P5');
  const length = Number(header[1]) * Number(header[2]);
  return Uint16Array.from({ length }, (_, index) => bytes.readUInt16BE(header[0].length + index * 2));
}

/** A small grey picture, so that demosaic and noise do not matter. */
async function greyOf(bytes: Buffer): Promise<Uint8Array> {
  return await sharp(bytes).resize(60, 40, { fit: 'fill' }).greyscale().raw().toBuffer();
}

/** Pearson's coefficient. */
function correlation(a: Uint8Array, b: Uint8Array): number {
  const mean = (values: Uint8Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [meanA, meanB] = [mean(a), mean(b)];
  let ab = 0;
  let aa = 0;
  let bb = 0;
  a.forEach((value, index) => {
    const da = value - meanA;
    const db = (b[index] ?? 0) - meanB;
    ab += da * db;
    aa += da * da;
    bb += db * db;
  });
  return ab / Math.sqrt(aa * bb);
}
