import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { defaultLook } from '../../src/look/index.ts';
import { developFile, type RenderJob, startDevelopPool } from '../../src/workers/index.ts';
import { writeDng } from './dng-writer.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-threads-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Threads run from built code only (`npm test` builds before it tests). */
const built: typeof import('../../src/workers/index.ts') = await import(
  join(import.meta.dirname, '../../dist/workers/index.js')
);

const original = join(folder, 'ramp.dng');
writeFileSync(
  original,
  writeDng({
    widthPx: 96,
    heightPx: 64,
    values: Uint16Array.from({ length: 96 * 64 }, (_, index) => 512 + ((index * 31) % 15_000)),
  }),
);

function job(name: string): RenderJob {
  return {
    path: original,
    kind: 'raw',
    look: defaultLook,
    size: 'half',
    format: 'png',
    outPath: join(folder, name),
  };
}

test('threads write the same bytes as the calling thread does, and errors cross with their codes', async () => {
  const threads = built.startDevelopPool({ size: 2 });
  const inline = startDevelopPool({ size: 0 });
  try {
    const [one, two] = await Promise.all([threads.render(job('one.png')), threads.render(job('two.png'))]);
    await inline.render(job('here.png'));
    expect(one.issues).toEqual(two.issues);
    expect(readFileSync(join(folder, 'one.png'))).toEqual(readFileSync(join(folder, 'here.png')));
    expect(readFileSync(join(folder, 'two.png'))).toEqual(readFileSync(join(folder, 'here.png')));
    const text = { ...job('text.png'), path: import.meta.filename };
    await expect(threads.render(text)).rejects.toMatchObject({ code: 'raw-cannot-decode', retryable: false });
    await expect(threads.render({ ...text, path: join(folder, 'no') })).rejects.toMatchObject({
      code: 'ENOENT',
    });
  } finally {
    await Promise.all([threads.close(), inline.close()]);
  }
});

test('developFile names the result after the original and decides by content', async () => {
  const pool = startDevelopPool({ size: 0 });
  const outDir = join(folder, 'new', 'deeper');
  try {
    const options = { pool, outDir, size: 'half', look: defaultLook } as const;
    const jpeg = await developFile(original, { ...options, format: 'jpeg' });
    expect(jpeg).toMatchObject({
      kind: 'raw',
      outPath: join(outDir, 'ramp.jpg'),
      renderedWidthPx: 48,
      issues: [],
    });
    const again = await developFile(jpeg.outPath, {
      ...options,
      format: 'webp',
      size: { longEdgePx: 24 },
    });
    expect(again).toMatchObject({
      kind: 'raster',
      outPath: join(outDir, 'ramp.webp'),
      renderedWidthPx: 24,
      issues: [],
    });
    const linear = await developFile(original, { ...options, format: 'tiff-linear' });
    expect(linear).toMatchObject({ outPath: join(outDir, 'ramp.tif'), renderedHeightPx: 32 });
  } finally {
    await pool.close();
  }
});

test('smaller ones are written beside the picture, from a raw and from a finished picture', async () => {
  const pool = startDevelopPool({ size: 0 });
  const also = (name: string) => [
    { longEdgePx: 24, format: 'png', outPath: join(folder, `${name}-24.png`) } as const,
    { longEdgePx: 9, format: 'jpeg', outPath: join(folder, `${name}-9.jpg`) } as const,
  ];
  const sizeOf = async (name: string) => {
    const { format, width, height } = await sharp(join(folder, name)).metadata();
    return [format, width, height];
  };
  try {
    await pool.render({ ...job('raw.png'), also: also('raw') });
    await pool.render({
      ...job('raster.png'),
      path: join(folder, 'raw.png'),
      kind: 'raster',
      look: null,
      size: 'full',
      also: also('raster'),
    });
    for (const name of ['raw', 'raster']) {
      expect(await sizeOf(`${name}.png`)).toEqual(['png', 48, 32]);
      expect(await sizeOf(`${name}-24.png`)).toEqual(['png', 24, 16]);
      expect(await sizeOf(`${name}-9.jpg`)).toEqual(['jpeg', 9, 6]);
    }
  } finally {
    await pool.close();
  }
});

test('regions and full size come from a raw and from a finished picture; a region outside is refused', async () => {
  const pool = startDevelopPool({ size: 0 });
  const region = { leftPx: 10, topPx: 8, widthPx: 30, heightPx: 20 };
  const finished = { path: join(folder, 'whole.png'), kind: 'raster', look: null } as const;
  const pixels = (name: string): Promise<Buffer> => sharp(join(folder, name)).raw().toBuffer();
  try {
    await expect(pool.render({ ...job('whole.png'), size: 'full' })).resolves.toMatchObject({
      widthPx: 96,
      heightPx: 64,
      renderedWidthPx: 96,
      renderedHeightPx: 64,
    });
    await expect(pool.render({ ...job('part.png'), size: { region } })).resolves.toMatchObject({
      widthPx: 96,
      renderedWidthPx: 30,
      renderedHeightPx: 20,
    });
    await pool.render({ ...job('cut.png'), ...finished, size: { region } });
    expect(await pixels('cut.png')).toEqual(await pixels('part.png'));
    const outside = { size: { region: { ...region, leftPx: 96 } } };
    for (const source of [{}, finished]) {
      await expect(pool.render({ ...job('no.png'), ...source, ...outside })).rejects.toMatchObject({
        code: 'region-outside',
      });
    }
  } finally {
    await pool.close();
  }
});

test('developFile never puts its result in the original’s place', async () => {
  const pool = startDevelopPool({ size: 0 });
  const path = join(folder, 'finished.jpg');
  try {
    await pool.render({ ...job('finished.jpg'), format: 'jpeg' });
    const before = readFileSync(path);
    const options = { pool, outDir: folder, size: 'half', look: null } as const;
    await expect(developFile(path, { ...options, format: 'jpeg' })).rejects.toMatchObject({
      code: 'output-is-original',
    });
    expect(readFileSync(path)).toEqual(before);
  } finally {
    await pool.close();
  }
});
