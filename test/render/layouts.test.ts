import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import type { DecodedRaw } from '../../src/develop/index.ts';
import { neutralLook } from '../../src/look/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { startDevelopPool } from '../../src/workers/index.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { dcrawEmuSensor, hasDcrawEmu } from './dcraw-emu.ts';
import { type DngOptions, writeDng } from './dng-writer.ts';
import { quadFilters, sixFilters } from './layouts.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-layouts-'));
const pool = startDevelopPool({ size: 0 });
afterAll(async () => {
  await pool.close();
  rmSync(folder, { recursive: true });
});
const decoder = librawDecoder();
const path = join(folder, 'x.dng');

async function decoded(options: DngOptions): Promise<DecodedRaw> {
  writeFileSync(path, writeDng(options));
  return decodeRaw(decoder, path, undefined);
}

const [widthPx, heightPx] = [48, 36];
const six: DngOptions = {
  widthPx,
  heightPx,
  values: Uint16Array.from({ length: widthPx * heightPx }, (_, at) => 600 + at),
  pattern: sixFilters,
  patternDim: [6, 6],
};

test('a mosaic of 6 x 6 keeps its filters in their places, wherever its crop begins', async () => {
  const { mosaic } = await decoded({ ...six, crop: [4, 8, 30, 24] });
  expect([mosaic.widthPx, mosaic.heightPx]).toEqual([30, 24]);
  const { layout } = mosaic;
  if (layout?.kind !== 'six') throw new Error('no 6 x 6');
  for (const [row, column] of [
    [0, 0],
    [1, 2],
    [5, 4],
  ] as const) {
    expect(layout.filters[row * 6 + column]).toBe(sixFilters[((row + 8) % 6) * 6 + ((column + 4) % 6)]);
    expect(mosaic.values[row * 30 + column]).toBe(600 + (row + 8) * widthPx + column + 4);
  }
});

test('a sensor without filters is grey', async () => {
  const { mosaic, issues } = await decoded({ ...six, pattern: [] });
  expect(mosaic).toMatchObject({
    layout: { kind: 'grey' },
    asShotMultipliers: [1, 1, 1],
    blackLevels: [512, 512, 512, 512],
  });
  expect(issues).toEqual([]);
});

test('a picture that is demosaiced already comes with its three samples, black taken off, cropped', async () => {
  const values = Uint16Array.from({ length: widthPx * heightPx * 3 }, (_, at) => 600 + at);
  const { mosaic } = await decoded({
    ...{ widthPx, heightPx, values, isLinear: true, orientation: 6 },
    crop: [3, 5, 20, 10],
  });
  expect(mosaic).toMatchObject({ layout: { kind: 'linear' }, widthPx: 20, heightPx: 10, orientation: 6 });
  expect(mosaic.whiteLevel).toBe(16_383 - 512);
  for (const [row, column] of [
    [0, 0],
    [9, 19],
  ] as const) {
    const at = ((row + 5) * widthPx + column + 3) * 3;
    const found = mosaic.values.subarray((row * 20 + column) * 3, (row * 20 + column) * 3 + 3);
    expect([...found]).toEqual([88 + at, 89 + at, 90 + at]);
  }
});

test('squares of four of one colour become one sample of a 2 x 2 mosaic', async () => {
  const { mosaic } = await decoded({ ...six, pattern: quadFilters, patternDim: [4, 4], whiteLevel: 16_000 });
  expect(mosaic).toMatchObject({ widthPx: 24, heightPx: 18, filters: [0, 1, 1, 2], whiteLevel: 64_000 });
  expect(mosaic.layout).toBeUndefined();
  expect(mosaic.blackLevels).toEqual([2048, 2048, 2048, 2048]);
  const at = (y: number, x: number): number => 600 + y * widthPx + x;
  expect(mosaic.values[24 + 1]).toBe(at(2, 2) + at(2, 3) + at(3, 2) + at(3, 3));
});

test('whoever reads samples themselves is given no other layout', async () => {
  writeFileSync(path, writeDng(six));
  await expect(pool.place({ path, kind: 'raw' })).rejects.toMatchObject({ code: 'raw-unsupported-mosaic' });
});

test.each([
  ['six', six],
  ['grey', { ...six, pattern: [] }],
  ['linear', { ...six, values: new Uint16Array(widthPx * heightPx * 3).fill(4000), isLinear: true }],
  ['quad', { ...six, pattern: quadFilters, patternDim: [4, 4] as const }],
])('a raw of the layout “%s” is rendered at half size, full size and in part', async (_, options) => {
  writeFileSync(path, writeDng(options));
  const outPath = join(folder, 'out.png');
  for (const size of [
    'half',
    'full',
    { region: { leftPx: 4, topPx: 4, widthPx: 9, heightPx: 9 } },
  ] as const) {
    const job = { path, kind: 'raw', look: neutralLook, size, format: 'png', outPath } as const;
    const { renderedWidthPx, renderedHeightPx } = await pool.render(job);
    const { width, height } = await sharp(outPath).metadata();
    expect([width, height]).toEqual([renderedWidthPx, renderedHeightPx]);
  }
});

test('ExifTool reads the layouts that were written', () => {
  writeFileSync(path, writeDng({ ...six, values: new Uint16Array(widthPx * heightPx * 3), isLinear: true }));
  const [linear] = JSON.parse(execFileSync('exiftool', ['-j', path]).toString());
  expect(linear).toMatchObject({ PhotometricInterpretation: 'Linear Raw', SamplesPerPixel: 3 });
  writeFileSync(path, writeDng(six));
  const [mosaic] = JSON.parse(execFileSync('exiftool', ['-j', path]).toString());
  expect(mosaic.CFARepeatPatternDim).toBe('6 6');
});

describe.skipIf(!hasDcrawEmu())('LibRaw’s command line', () => {
  test('reads a mosaic of 6 x 6 as one of the same filters', () => {
    // One colour alone is lit: what it shows in the middle is that colour.
    const values = Uint16Array.from({ length: 96 * 96 }, (_, at) =>
      sixFilters[(Math.floor(at / 96) % 6) * 6 + ((at % 96) % 6)] === 0 ? 10_000 : 512,
    );
    writeFileSync(path, writeDng({ ...six, widthPx: 96, heightPx: 96, values }));
    const { data, widthPx: stride } = dcrawEmuSensor(path, 0);
    const at = (48 * stride + 48) * 3;
    expect(data[at]).toBeGreaterThan(20 * Math.max(data[at + 1] ?? 0, data[at + 2] ?? 0));
  });
});
