import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ArrivalWatches, lastLooksMax } from './arrival-watches.ts';

let folder: string;
const listener = { inspected: () => {}, preview: () => {} };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-watches-'));
});

afterAll(() => rm(folder, { recursive: true, force: true }));

/** A file that was watched to its end. */
async function arrived(watches: ArrivalWatches, arrival: string, text: string): Promise<void> {
  const path = join(folder, arrival);
  await writeFile(path, text);
  watches.begin(arrival, path, 0, listener);
  watches.grew(arrival, text.length);
  await watches.inspect({ path, sizeBytes: text.length });
  await watches.end(arrival);
}

test('whoever takes a file up after its last byte is told what was seen then, once', async () => {
  const watches = new ArrivalWatches();
  await arrived(watches, 'notes', 'mug, jug, bowl');
  expect(watches.takeLastLook('notes', 14)?.kind).toBe('text');
  expect(watches.takeLastLook('notes', 14)).toBeNull();
});

test('a look into a file that was shorter then is worth nothing, nor one from before it went on', async () => {
  const watches = new ArrivalWatches();
  await arrived(watches, 'grew', 'mug');
  expect(watches.takeLastLook('grew', 4)).toBeNull();
  await arrived(watches, 'went-on', 'mug');
  watches.begin('went-on', join(folder, 'went-on'), 3, listener);
  expect(watches.takeLastLook('went-on', 3)).toBeNull();
  await watches.close();
});

test('looks that nobody takes are forgotten, the oldest first', async () => {
  const watches = new ArrivalWatches();
  for (let file = 0; file <= lastLooksMax; file++) await arrived(watches, `file-${file}`, 'jug');
  expect(watches.takeLastLook('file-0', 3)).toBeNull();
  expect(watches.takeLastLook('file-1', 3)).not.toBeNull();
});
