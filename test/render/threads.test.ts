import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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
