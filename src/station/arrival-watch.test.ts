import { appendFile, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { renderFrame } from '../stand-in/index.ts';
import { ArrivalWatch, findPreview, inspectFile } from './arrival-watch.ts';
import type { CutPreview } from './core/first-view.ts';

let folder: string;
let raw: Uint8Array;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-watch-'));
  raw = (await renderFrame({ sizeMegapixels: 1 })).bytes;
});

afterAll(() => rm(folder, { recursive: true, force: true }));

test('each better preview is cut out as it arrives, long before the file has', async () => {
  const path = join(folder, 'growing.dng');
  await writeFile(path, '');
  const cuts: { at: number; preview: CutPreview }[] = [];
  let size = 0;
  const watch = new ArrivalWatch(path, {
    inspected: () => {},
    preview: (preview) => cuts.push({ at: size, preview }),
  });
  for (const step = 50_000; size < raw.length; ) {
    const next = Math.min(size + step, raw.length);
    await appendFile(path, raw.subarray(size, next));
    size = next;
    watch.grew(size);
    await watch.settled();
  }
  const last = await watch.ended(size);
  await watch.close();
  expect(last.wholeness).toEqual({ kind: 'whole' });
  expect(cuts.length).toBeGreaterThan(0);
  const largest = cuts.at(-1);
  expect(largest?.at).toBeLessThan(raw.length / 3);
  const edges = cuts.map(({ preview }) => Math.max(preview.widthPx, preview.heightPx));
  expect(edges).toEqual([...edges].sort((a, b) => a - b));
  // ITU-T T.81 B.2.1: a JPEG begins with SOI and ends with EOI.
  expect([...(largest?.preview.jpeg.subarray(0, 2) ?? [])]).toEqual([0xff, 0xd8]);
  expect([...(largest?.preview.jpeg.subarray(-2) ?? [])]).toEqual([0xff, 0xd9]);
});

test('a file that is all there gives its best preview and its structure in one go', async () => {
  const path = join(folder, 'whole.dng');
  await writeFile(path, raw);
  expect((await inspectFile(path, raw.length)).kind).toBe('dng');
  const preview = await findPreview(path, raw.length);
  // The stand-in's largest preview is as wide as its picture.
  expect(preview?.widthPx).toBe(preview?.uprightWidthPx);
  expect(preview?.widthPx).toBeGreaterThan(0);
});

test('a file cut short is said to be cut, and its preview is there all the same', async () => {
  const path = join(folder, 'cut.dng');
  const half = raw.length >> 1;
  await writeFile(path, raw.subarray(0, half));
  expect((await inspectFile(path, half)).wholeness).toEqual({ kind: 'cut', expectedBytes: raw.length });
  expect(await findPreview(path, half)).not.toBeNull();
});

test('a file that is gone is a failure, not a file of unknown kind', async () => {
  await expect(inspectFile(join(folder, 'nowhere.dng'), 10)).rejects.toThrow(/ENOENT/);
});

test('a file of which nothing has come is not looked into', async () => {
  let looks = 0;
  const watch = new ArrivalWatch(join(folder, 'not-made-yet.dng'), {
    inspected: () => {
      looks += 1;
    },
    preview: () => {},
  });
  watch.grew(0);
  await watch.settled();
  await watch.close();
  expect(looks).toBe(0);
});
