import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import type { Region } from '../../src/image/index.ts';
import { defaultLook } from '../../src/look/index.ts';
import { startDevelopPool } from '../../src/workers/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-regions-'));
const pool = startDevelopPool({ size: 0 });
afterAll(async () => {
  await pool.close();
  rmSync(folder, { recursive: true });
});

let count = 0;
const newPath = (): string => join(folder, `${count++}.png`);

const pixels = (path: string): Promise<Buffer> => sharp(path).removeAlpha().raw().toBuffer();

/** Mean absolute difference, 8-bit units. */
function difference(one: Buffer, other: Buffer): number {
  expect(one).toHaveLength(other.length);
  return one.reduce((sum, value, at) => sum + Math.abs(value - (other[at] ?? 0)), 0) / one.length;
}

/** sRGB codes to light and back, IEC 61966-2-1:1999, 5.2. */
const lightOf = (code: number): number => {
  const encoded = code / 255;
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
};
const codeOf = (light: number): number =>
  255 * (light <= 0.0031308 ? light * 12.92 : 1.055 * light ** (1 / 2.4) - 0.055);

/** The mean light of each block of `edge` × `edge` pixels, as codes. */
function blockMeans(rgb: Buffer, width: number, edge: number): number[] {
  const across = width / edge;
  const sums = new Array<number>(rgb.length / edge ** 2).fill(0);
  rgb.forEach((code, at) => {
    const [pixel, channel] = [Math.floor(at / 3), at % 3];
    const [x, y] = [Math.floor((pixel % width) / edge), Math.floor(Math.floor(pixel / width) / edge)];
    const cell = (y * across + x) * 3 + channel;
    sums[cell] = (sums[cell] ?? 0) + lightOf(code);
  });
  return sums.map((sum) => codeOf(sum / edge ** 2));
}

/** Ramps in both directions and a grain that no two places share; 300 × 200. */
async function picture(name: string): Promise<string> {
  const [width, height] = [300, 200];
  const bytes = Buffer.alloc(width * height * 3);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      bytes[at++] = (x * 255) / width;
      bytes[at++] = (y * 255) / height;
      bytes[at++] = Math.imul(x * 31 + y, 2_654_435_761) >>> 24;
    }
  }
  const path = join(folder, name);
  writeFileSync(
    path,
    await sharp(bytes, { raw: { width, height, channels: 3 } })
      .png()
      .toBuffer(),
  );
  return path;
}

const region: Region = { leftPx: 40, topPx: 60, widthPx: 120, heightPx: 80 };
const inSharp = { left: 40, top: 60, width: 120, height: 80 };

test('a region of a finished picture has the very pixels that libvips cuts out of it', async () => {
  const path = await picture('plain.png');
  const outPath = newPath();
  const job = { path, kind: 'raster', look: null, format: 'png', outPath } as const;
  await pool.render({ ...job, size: { region } });
  expect(await pixels(outPath)).toEqual(await sharp(path).extract(inSharp).raw().toBuffer());
  const answer = await pool.render({ ...job, size: { region, scale: 0.5 } });
  expect([answer.renderedWidthPx, answer.renderedHeightPx]).toEqual([60, 40]);
});

describe.skipIf(!hasShared())('a raw', () => {
  const path = sharedPath('samples/real-chart-4mp.dng');
  const look = defaultLook;

  test('gives regions at every scale that are the mean light of each block (IEC 61966-2-1)', async () => {
    const [full, half] = [newPath(), newPath()];
    const chart: Region = { leftPx: 400, topPx: 300, widthPx: 512, heightPx: 384 };
    const job = { path, kind: 'raw', look, format: 'png' } as const;
    await pool.render({ ...job, size: { region: chart }, outPath: full });
    const answer = await pool.render({ ...job, size: { region: chart, scale: 0.25 }, outPath: half });
    expect([answer.renderedWidthPx, answer.renderedHeightPx]).toEqual([128, 96]);
    const means = blockMeans(await pixels(full), 512, 4);
    const largest = (await pixels(half)).reduce(
      (most, value, at) => Math.max(most, Math.abs(value - (means[at] ?? 0))),
      0,
    );
    // Both are rounded to whole codes, and the blocks are of values that were rounded before.
    expect(largest).toBeLessThanOrEqual(1);
  });
});

describe('a preview that stands in for an original', () => {
  /** Finds the region's place in a preview of half the original's edges. */
  const full = { widthPx: 600, heightPx: 400 };
  const inOriginal: Region = { leftPx: 80, topPx: 120, widthPx: 240, heightPx: 160 };

  test('gives the part of it that the region means, in its own pixels where they are coarser', async () => {
    const path = await picture('preview.png');
    const outPath = newPath();
    const job = { path, orientation: 1, full, region: inOriginal, format: 'png', outPath } as const;
    const answer = await pool.preview({ ...job, scale: 1 });
    expect([answer.widthPx, answer.renderedWidthPx]).toEqual([600, 120]);
    expect(await pixels(outPath)).toEqual(await sharp(path).extract(inSharp).raw().toBuffer());
    expect((await pool.preview({ ...job, scale: 0.25 })).renderedWidthPx).toBe(60);
  });

  test('is turned as the raw says', async () => {
    const path = await picture('lying.png');
    const outPath = newPath();
    await pool.preview({
      path,
      orientation: 6,
      full: { widthPx: 400, heightPx: 600 },
      region: { leftPx: 80, topPx: 120, widthPx: 160, heightPx: 240 },
      scale: 1,
      format: 'png',
      outPath,
    });
    // Exif 2.32, 4.6.4 A: 6 means row 0 is at the right, so it is turned clockwise by 90 degrees.
    const turned = sharp(await sharp(path).rotate(90).png().toBuffer());
    const expected = await turned.extract({ left: 40, top: 60, width: 80, height: 120 }).raw().toBuffer();
    expect(await pixels(outPath)).toEqual(expected);
  });

  test('has its black bars left out of account', async () => {
    const padded = join(folder, 'padded.png');
    const plain = await picture('inner.png');
    writeFileSync(
      padded,
      await sharp(plain).extend({ top: 20, bottom: 20, background: '#000' }).png().toBuffer(),
    );
    const outPath = newPath();
    const job = { path: padded, orientation: 1, full, region: inOriginal, format: 'png', outPath } as const;
    await pool.preview({ ...job, scale: 1 });
    expect(await pixels(outPath)).toEqual(await sharp(plain).extract(inSharp).raw().toBuffer());
  });

  test('may end early: what has not come is grey, and what has come is there', async () => {
    const whole = await sharp(await picture('whole.png'))
      .jpeg({ quality: 95 })
      .toBuffer();
    const cut = join(folder, 'cut.jpg');
    const bytes = Buffer.concat([
      whole.subarray(0, Math.floor(whole.length * 0.6)),
      Buffer.from([0xff, 0xd9]),
    ]);
    writeFileSync(cut, bytes);
    const outPath = newPath();
    const top: Region = { leftPx: 0, topPx: 0, widthPx: 600, heightPx: 100 };
    await pool.preview({ path: cut, orientation: 1, full, region: top, scale: 1, format: 'png', outPath });
    const expected = await sharp(whole).extract({ left: 0, top: 0, width: 300, height: 50 }).raw().toBuffer();
    expect(difference(await pixels(outPath), expected)).toBe(0);
  });
});

test('neighbouring regions are the picture when they are put together', async () => {
  const path = await picture('whole-of-tiles.png');
  const tiles = [];
  for (const [leftPx, topPx] of [
    [0, 0],
    [128, 0],
    [256, 0],
    [0, 128],
    [128, 128],
    [256, 128],
  ] as const) {
    const outPath = newPath();
    const size = { region: { leftPx, topPx, widthPx: 128, heightPx: 128 } };
    await pool.render({ path, kind: 'raster', look: null, format: 'png', size, outPath });
    tiles.push({ input: readFileSync(outPath), left: leftPx, top: topPx });
  }
  const together = sharp({ create: { width: 300, height: 200, channels: 3, background: '#f0f' } });
  expect(await together.composite(tiles).removeAlpha().raw().toBuffer()).toEqual(await pixels(path));
});
