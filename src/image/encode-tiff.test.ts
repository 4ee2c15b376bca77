import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import { encodeTiff } from './encode-tiff.ts';
import type { Rgb16 } from './raster.ts';

const picture: Rgb16 = {
  data: Uint16Array.from({ length: 5 * 3 * 3 }, (_, index) => index * 1456 + 1),
  widthPx: 5,
  heightPx: 3,
  channels: 3,
};
const profile = encodeIccProfile(rgbSpaces.rec2020, { linear: true });

test('libvips reads the samples and the profile back as they were', async () => {
  const image = sharp(encodeTiff(picture, profile), { ignoreIcc: true });
  const { icc, width, height, depth } = await image.metadata();
  expect({ width, height, depth }).toEqual({ width: 5, height: 3, depth: 'ushort' });
  expect(new Uint8Array(icc ?? [])).toEqual(profile);
  const raw = await image.toColourspace('rgb16').raw({ depth: 'ushort' }).toBuffer();
  expect(new Uint16Array(raw.buffer, raw.byteOffset, raw.length / 2)).toEqual(picture.data);
});

test('ExifTool finds a sound TIFF', () => {
  const folder = mkdtempSync(join(tmpdir(), 'setside-tiff-'));
  const path = join(folder, 'x.tif');
  writeFileSync(path, encodeTiff(picture, profile));
  try {
    expect(execFileSync('exiftool', ['-validate', '-warning', '-a', '-s3', path]).toString().trim()).toBe(
      'OK',
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
});
