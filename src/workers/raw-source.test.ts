import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { RawDecoder } from '../develop/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { keepingSource, keptPixelsMax } from './raw-source.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-source-'));
afterAll(() => rmSync(folder, { recursive: true }));
const one = join(folder, 'one.raw');
const two = join(folder, 'two.raw');

let decoded: number[];

/** Notes the length of what it was given; the mosaic claims `pixels` values without holding them. */
function decoderOf(pixels: number): RawDecoder {
  const values = new Uint16Array(0);
  Object.defineProperty(values, 'length', { value: pixels });
  const mosaic: Mosaic = {
    values,
    widthPx: pixels,
    heightPx: 1,
    filters: [0, 1, 1, 2],
    blackLevels: [0, 0, 0, 0],
    whiteLevel: 1,
    asShotMultipliers: [1, 1, 1],
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv: 0,
  };
  return {
    decode: (bytes) => {
      decoded.push(bytes.length);
      return Promise.resolve({ mosaic, colours: 'none' as const, issues: [] });
    },
  };
}

beforeEach(() => {
  decoded = [];
  writeFileSync(one, 'one');
  writeFileSync(two, 'four');
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
});
afterEach(() => vi.useRealTimers());

test('the last mosaic is kept: asked for again, it is not decoded again', async () => {
  const source = keepingSource(decoderOf(10));
  const first = await source.open(one, undefined);
  expect(await source.open(one, undefined)).toBe(first);
  expect(decoded).toEqual([3]);
});

test('only the last one is kept', async () => {
  const source = keepingSource(decoderOf(10));
  for (const path of [one, two, one]) await source.open(path, undefined);
  expect(decoded).toEqual([3, 4, 3]);
});

test('it is let go eight seconds after it was last asked for', async () => {
  const source = keepingSource(decoderOf(10));
  await source.open(one, undefined);
  vi.advanceTimersByTime(7_000);
  await source.open(one, undefined);
  vi.advanceTimersByTime(7_900);
  await source.open(one, undefined);
  expect(decoded).toHaveLength(1);
  vi.advanceTimersByTime(8_100);
  await source.open(one, undefined);
  expect(decoded).toHaveLength(2);
});

test('a file that was written to, and other hints, are decoded anew', async () => {
  const source = keepingSource(decoderOf(10));
  await source.open(one, undefined);
  appendFileSync(one, ' more');
  await source.open(one, undefined);
  await source.open(one, { whiteLevel: 1000 });
  expect(decoded).toEqual([3, 8, 8]);
});

test.each([
  [keptPixelsMax, 1],
  [keptPixelsMax + 1, 2],
])('a mosaic of %d pixels asked for twice is decoded %d times', async (pixels, times) => {
  const source = keepingSource(decoderOf(pixels));
  await source.open(one, undefined);
  await source.open(one, undefined);
  expect(decoded).toHaveLength(times);
});
