import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ExifTool } from 'exiftool-vendored';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import { encodeTiff } from '../image/index.ts';
import { finishDelivery } from './finish-delivery.ts';
import type { FinishFormat } from './finish-messages.ts';

const reader = new ExifTool();
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-finish-'));
});
afterAll(async () => {
  await reader.end();
  await rm(folder, { recursive: true });
});

const jpeg: FinishFormat = { kind: 'jpeg', quality: 90, bytesMax: null, qualityMin: 50 };
const tiff = (compression: 'none' | 'lzw' | 'deflate'): FinishFormat => ({
  kind: 'tiff',
  depth: 16,
  compression,
});

test.each([
  ['jpg', jpeg, 'JFIF:XResolution'],
  ['none.tif', tiff('none'), 'IFD0:XResolution'],
  ['lzw.tif', tiff('lzw'), 'IFD0:XResolution'],
  ['deflate.tif', tiff('deflate'), 'IFD0:XResolution'],
  ['png', { kind: 'png', depth: 16 }, 'PNG-pHYs:PixelsPerUnitX'],
] as const)('a finished .%s says how large it is printed, for ExifTool', async (ending, format, where) => {
  const path = join(folder, 'between.tif');
  const picture = {
    data: new Uint16Array(3 * 60 * 40).fill(30_000),
    widthPx: 60,
    heightPx: 40,
    channels: 3,
  } as const;
  await writeFile(path, encodeTiff(picture, encodeIccProfile(rgbSpaces.srgb, { version: 2 })));
  const outPath = join(folder, `made.${ending}`);
  await finishDelivery({
    path,
    target: { widthPx: 60, heightPx: 40 },
    around: null,
    sharpening: { widthPx: 0.6, strength: 0 },
    format,
    pixelsPerInch: 300,
    border: null,
    outPath,
  });
  const tags: Record<string, unknown> = await reader.readRaw(outPath, { readArgs: ['-G1', '-n', '-All'] });
  // PNG counts by the metre (ISO/IEC 15948, 11.3.5.3): 300 / 0.0254.
  expect(tags[where]).toBeCloseTo(where.startsWith('PNG') ? 11_811 : 300, 1);
  const unit =
    where.replace(/XResolution|PixelsPerUnitX/, '') +
    (where.startsWith('PNG') ? 'PixelUnits' : 'ResolutionUnit');
  expect(tags[unit]).toBe(where.startsWith('IFD0') ? 2 : 1);
});
