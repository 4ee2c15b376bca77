import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { SetsideError } from '../../src/base/index.ts';
import { developErrors } from '../../src/develop/index.ts';
import { defaultLook } from '../../src/look/index.ts';
import { type RenderJob, startDevelopPool, workerErrors } from '../../src/workers/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-originals-'));
const pool = startDevelopPool({ size: 0 });
afterAll(async () => {
  await pool.close();
  rmSync(folder, { recursive: true });
});

let count = 0;
function job(path: string, kind: RenderJob['kind'], size: RenderJob['size'] = 'half'): RenderJob {
  return {
    path,
    kind,
    size,
    look: kind === 'raw' ? defaultLook : null,
    format: 'png',
    outPath: join(folder, `${count++}.png`),
  };
}

function written(name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

test('a finished picture in another colour space comes out in sRGB', async () => {
  const code = { r: 190, g: 60, b: 70 };
  const flat = sharp({ create: { width: 8, height: 8, channels: 3, background: code } });
  // libvips converts to Display P3 and embeds its profile; the codes are then others.
  const inP3 = await flat.withIccProfile('p3').png().toBuffer();
  const asStored = [...(await sharp(inP3, { ignoreIcc: true }).raw().toBuffer()).subarray(0, 3)];
  expect(Math.abs((asStored[0] ?? 0) - code.r)).toBeGreaterThan(8);
  const task = job(written('p3.png', inP3), 'raster', 'full');
  await pool.render(task);
  const rendered = [...(await sharp(task.outPath).raw().toBuffer()).subarray(0, 3)];
  rendered.forEach((value, channel) => {
    expect(Math.abs(value - ([code.r, code.g, code.b][channel] ?? 0))).toBeLessThanOrEqual(2);
  });
});

describe.skipIf(!hasShared())('Exif orientation (eight real pictures of one scene each)', () => {
  const orientationPath = (name: string): string => sharedPath(`reference/metadata/orientation/${name}`);

  /** Mean absolute difference on a 24 x 24 box average, as the set's own expected.json was measured (Pillow). */
  async function meanDifference(first: string, second: string): Promise<number> {
    const [a, b] = await Promise.all(
      [first, second].map((path) =>
        sharp(path).resize(24, 24, { fit: 'fill', kernel: 'linear' }).raw().toBuffer(),
      ),
    );
    if (a === undefined || b === undefined || a.length !== b.length) return Number.NaN;
    return a.reduce((sum, code, index) => sum + Math.abs(code - (b[index] ?? 0)), 0) / a.length;
  }

  test.each([
    ['Landscape_1.jpg', [0, 2, 3, 4, 5, 6, 7, 8].map((n) => `Landscape_${n}.jpg`)],
    ['f1-exif.jpg', [2, 3, 4, 5, 6, 7, 8].map((n) => `f${n}-exif.jpg`)],
  ])('all eight of the set of %s come out upright and alike', async (first, others) => {
    const reference = job(orientationPath(first), 'raster');
    const { widthPx, heightPx } = await pool.render(reference);
    for (const name of others) {
      const turned = job(orientationPath(name), 'raster');
      expect(await pool.render(turned), name).toMatchObject({ widthPx, heightPx });
      // Each is its own JPEG of the turned picture; a wrong turn differs by tens.
      expect(await meanDifference(reference.outPath, turned.outPath), name).toBeLessThan(1.5);
    }
  });
});

describe.skipIf(!hasShared())('originals that cannot be developed', () => {
  const sample = (name: string): string => sharedPath(`samples/${name}`);
  const chart = (): Uint8Array => readFileSync(sample('real-chart-4mp.dng'));

  test.each([
    ['a compression the decoder does not know', () => sample('undecodable-vc5.gpr'), 'raw-cannot-decode'],
    ['a DNG cut in the middle', () => written('cut.dng', chart().subarray(0, 2_000_000)), 'raw-cut'],
    ['a DNG that lacks its last byte', () => written('almost.dng', chart().subarray(0, -1)), 'raw-cut'],
    ['the head of a TIFF raw', () => sample('head-only-1.arw'), 'raw-cut'],
    ['the head of an ISO-BMFF raw', () => sample('head-only-7.cr3'), 'raw-cut'],
    [
      'a text file',
      () => written('text.dng', new TextEncoder().encode('not a picture\n')),
      'raw-cannot-decode',
    ],
    ['an empty file', () => written('empty.dng', new Uint8Array()), 'raw-cannot-decode'],
    ['a JPEG taken for a raw', () => sample('jpeg-named-nef-5.nef'), 'raw-cannot-decode'],
    ['a file that is not there', () => join(folder, 'nothing.dng'), 'ENOENT'],
  ])('%s: %s is a typed error, and the next raw is developed', async (_, path, code) => {
    await expect(pool.render(job(path(), 'raw'))).rejects.toMatchObject({ code });
    await expect(pool.render(job(sample('real-chart-4mp.dng'), 'raw'))).resolves.toMatchObject({
      widthPx: 1734,
    });
  });

  test('a raw is never taken for a finished picture, although libvips would show its preview', async () => {
    for (const name of ['real-chart-4mp.dng', 'undecodable-vc5.gpr', 'head-only-3.dng', 'head-only-7.cr3']) {
      await expect(pool.render(job(sample(name), 'raster')), name).rejects.toMatchObject({
        code: 'picture-is-raw',
      });
    }
  });

  test('nothing is left behind where a job failed', async () => {
    const before = readdirSync(folder).length;
    await expect(pool.render(job(sample('undecodable-vc5.gpr'), 'raw'))).rejects.toBeInstanceOf(SetsideError);
    expect(readdirSync(folder)).toHaveLength(before);
  });

  test('content decides, not the name: a JPEG with a raw file’s extension is rendered as a raster', async () => {
    // SOURCES.md of the samples; 2000 x 3008 upright by ExifTool -ImageSize and Orientation.
    await expect(
      pool.render(job(sample('jpeg-named-nef-5.nef'), 'raster', { longEdgePx: 500 })),
    ).resolves.toMatchObject({
      renderedHeightPx: 500,
    });
  });
});

describe.skipIf(!hasShared())('damaged and hostile pictures (public bug reports and fuzzing corpora)', () => {
  const known = new Set([...Object.keys(developErrors), ...Object.keys(workerErrors)]);
  const names = hasShared()
    ? readdirSync(sharedPath('reference/robustness')).filter((name) => /\.(jpg|png|tiff?)$/.test(name))
    : [];

  test.each(names)('%s is rendered or refused with a typed error, as raster and as raw', async (name) => {
    const path = sharedPath(`reference/robustness/${name}`);
    for (const kind of ['raster', 'raw'] as const) {
      const outcome = await pool
        .render(job(path, kind, { longEdgePx: 64 }))
        .catch((thrown: unknown) => thrown);
      if (outcome instanceof SetsideError) expect(known, `${kind}: ${outcome.code}`).toContain(outcome.code);
      else expect(outcome).toMatchObject({ renderedWidthPx: expect.any(Number) });
    }
  });

  test.each([
    'bomb-jpeg-65500x65500-header.jpg',
    'bomb-png-30000x30000-grey.png',
    'bomb-tiff-60000x60000-deflate.tif',
  ])('%s is refused by its size before it is decoded', async (name) => {
    const path = sharedPath(`reference/robustness/${name}`);
    await expect(pool.render(job(path, 'raster'))).rejects.toMatchObject({ code: 'picture-too-large' });
  });

  test.each(['cut-half.jpg', 'soi-only.jpg', 'zero-width.jpg', 'empty.jpg'])(
    '%s is not delivered as good',
    async (name) => {
      const path = sharedPath(`reference/robustness/${name}`);
      await expect(pool.render(job(path, 'raster'))).rejects.toMatchObject({ code: 'picture-cannot-decode' });
    },
  );
});
