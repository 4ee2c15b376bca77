import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Color from 'colorjs.io';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Frame, renderFrame } from '../../src/stand-in/index.ts';

/**
 * The stand-in's files, read by programs that are not ours: ExifTool (metadata, validity), LibRaw's command line
 * (mosaic, colour). Both come with Debian (libimage-exiftool-perl, libraw-bin).
 */
let folder: string;
let picture: Frame;
let chart: Frame;

const shutterMs = Date.UTC(2026, 9, 1, 8, 4, 5, 120);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setside-raw-'));
  picture = await renderFrame({ shot: 'jug', sizeMegapixels: 0.1, shutterMs });
  chart = await renderFrame({ purpose: 'chart', sizeMegapixels: 0.3 });
  writeFileSync(join(folder, 'picture.dng'), picture.bytes);
  writeFileSync(join(folder, 'chart.dng'), chart.bytes);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('ExifTool finds nothing to complain of', () => {
  const report = exiftool('-validate', '-warning', '-error', '-a', join(folder, 'picture.dng'));
  expect(report).toMatchObject({ Validate: 'OK' });
  expect(report).not.toHaveProperty('Warning');
});

test('ExifTool reads back what the camera wrote', () => {
  const zone = new Date(shutterMs).getTimezoneOffset();
  const tags = exiftool('-n', '-G1', join(folder, 'picture.dng'));
  expect(tags).toMatchObject({
    'IFD0:Make': 'Setside',
    'IFD0:Model': 'Stand-in',
    'IFD0:UniqueCameraModel': 'Setside Stand-in',
    'IFD0:DNGVersion': '1 4 0 0',
    'IFD0:Orientation': 6,
    'IFD0:CalibrationIlluminant1': 21,
    'IFD0:BaselineExposure': 0.42,
    'SubIFD:CFAPattern2': '0 1 1 2',
    'SubIFD:BlackLevel': '512 515 510 513',
    'SubIFD:WhiteLevel': 15871,
    'SubIFD:BitsPerSample': 14,
    'SubIFD:Compression': 7,
    'ExifIFD:SubSecTimeOriginal': 120,
    'ExifIFD:ExposureTime': 0.008,
    'ExifIFD:FNumber': 8,
    'ExifIFD:ISO': 100,
    'ExifIFD:FocalLength': 90,
    'ExifIFD:LensModel': 'Stand-in 90mm',
    'ExifIFD:SerialNumber': 'QM-0001',
  });
  const shown = String(tags['Composite:SubSecDateTimeOriginal'])
    .replace(/^(\d+):(\d+):/, '$1-$2-')
    .replace(' ', 'T');
  expect(Date.parse(shown)).toBe(shutterMs);
  expect(offsetMinutes(String(tags['ExifIFD:OffsetTimeOriginal'])) + zone).toBe(0);
});

test('ExifTool reads the dial and the menu that a fault has turned', async () => {
  const faults = [
    { name: 'sensitivity', value: 200 },
    { name: 'white-balance', value: null },
  ] as const;
  const turned = await renderFrame({ purpose: 'chart', sizeMegapixels: 0.05, faults });
  const path = join(folder, 'turned.dng');
  writeFileSync(path, turned.bytes);
  const asked = ['-n', '-G1', '-ExifIFD:ISO', '-ExifIFD:WhiteBalance'];
  expect(exiftool(...asked, path)).toMatchObject({ 'ExifIFD:ISO': 200, 'ExifIFD:WhiteBalance': 0 });
  expect(exiftool(...asked, join(folder, 'picture.dng'))).toMatchObject({ 'ExifIFD:WhiteBalance': 1 });
  // Twice the sensitivity is a stop (ISO 12232).
  expect(turned.truth.exposureEv).toBe(1);
});

/**
 * CIEDE2000 between the published values of the chart and LibRaw's linear rendering: camera balance, embedded matrix,
 * XYZ output, half size, no brightening. What is left is rounding and the noise of some hundred averaged pixels, most
 * of it in the black patch (measured: 0.11 there, below 0.08 elsewhere).
 */
const deltaE00Max = 0.25;

test('the chart, developed by LibRaw to XYZ, has the published colours', () => {
  const path = join(folder, 'chart.dng');
  execFileSync('dcraw_emu', ['-4', '-h', '-w', '-o', '5', '-Z', 'ppm', path]);
  const image = readPpm(readFileSync(join(folder, 'chart.ppm')));
  const white = 2 ** -0.42 * 65_535; // BaselineExposure: a perfect diffuser lies 0.42 EV below saturation.
  const errors = chart.truth.patches.map(({ labD50, cornersPx }) => {
    const xyz = meanInside(image, cornersPx).map((value) => value / white);
    const measured = new Color('xyz-d65', [xyz[0] ?? 0, xyz[1] ?? 0, xyz[2] ?? 0]).to('lab');
    return measured.deltaE(new Color('lab', [...labD50]), '2000');
  });
  expect(errors).toHaveLength(24);
  expect(Math.max(...errors)).toBeLessThan(deltaE00Max);
});

test('one stop more light doubles every value above black (definition of EV, ISO 2720)', async () => {
  const plain = { purpose: 'chart', sizeMegapixels: 0.05, noise: false } as const;
  const [right, under] = await Promise.all([renderFrame(plain), renderFrame({ ...plain, exposureEv: -1 })]);
  const black = [512, 515, 510, 513]; // the file's own BlackLevel, as ExifTool reads it above
  const ratio = (index: number): number => {
    const place = (Math.floor(index / right.truth.widthPx) % 2) * 2 + (index % 2);
    return (
      ((right.mosaic[index] ?? 0) - (black[place] ?? 0)) / ((under.mosaic[index] ?? 0) - (black[place] ?? 0))
    );
  };
  const bright = [...right.mosaic.keys()].filter((index) => (right.mosaic[index] ?? 0) > 5000);
  expect(bright.length).toBeGreaterThan(1000);
  for (const index of bright) expect(ratio(index)).toBeCloseTo(2, 2);
});

function exiftool(...args: string[]): Record<string, unknown> {
  const [report] = JSON.parse(execFileSync('exiftool', ['-j', ...args], { encoding: 'utf8' })) as unknown[];
  // ExifTool's -j prints one object per file.
  return report as Record<string, unknown>;
}

function offsetMinutes(text: string): number {
  const [, sign, hours, minutes] = /^([+-])(\d\d):(\d\d)$/.exec(text) ?? [];
  const size = Number(hours) * 60 + Number(minutes);
  return sign === '-' ? -size : size;
}

interface Raster {
  readonly width: number;
  readonly height: number;
  /** Row by row, channels interleaved. */
  readonly values: Uint16Array;
}

const readPpm = (bytes: Buffer): Raster => readNetpbm(bytes, 'P6', 3);

/** Netpbm's binary formats, 16 bit, big endian (man 5 pgm, man 5 ppm). */
function readNetpbm(bytes: Buffer, magic: string, channels: number): Raster {
  const header = /^(P[56])\s+(\d+)\s+(\d+)\s+(\d+)\s/.exec(bytes.toString('latin1', 0, 100));
  if (header === null || header[1] !== magic) throw new Error(`expected ${magic}`);
  const width = Number(header[2]);
  const height = Number(header[3]);
  const start = header[0].length;
  const values = Uint16Array.from({ length: width * height * channels }, (_, index) =>
    bytes.readUInt16BE(start + index * 2),
  );
  return { width, height, values };
}

/** Mean over the middle of a patch; the raster is half the size of the sensor. */
function meanInside(image: Raster, corners: readonly (readonly [number, number])[]): number[] {
  const xs = corners.map(([x]) => x / 2);
  const ys = corners.map(([, y]) => y / 2);
  const [left, right] = shrink(Math.min(...xs), Math.max(...xs));
  const [top, bottom] = shrink(Math.min(...ys), Math.max(...ys));
  const sums = [0, 0, 0];
  let count = 0;
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++, count++) {
      for (const k of [0, 1, 2])
        sums[k] = (sums[k] ?? 0) + (image.values[(y * image.width + x) * 3 + k] ?? 0);
    }
  }
  return sums.map((sum) => sum / count);
}

function shrink(from: number, to: number): [number, number] {
  const margin = (to - from) * 0.2;
  return [Math.ceil(from + margin), Math.floor(to - margin)];
}
