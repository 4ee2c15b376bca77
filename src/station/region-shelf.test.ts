import { mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { RegionShelf } from './region-shelf.ts';

let folder: string;
beforeEach(async () => {
  folder = join(await mkdtemp(join(tmpdir(), 'setside-shelf-')), 'regions');
});
afterEach(() => rm(join(folder, '..'), { recursive: true }));

const bytes = (count: number): Uint8Array => new Uint8Array(count).fill(7);
const names = async (): Promise<string[]> => (await readdir(folder)).sort();

test('files stay up to the bound to the byte; one byte more and the one not used the longest goes', async () => {
  const shelf = new RegionShelf({ folder, bytesMax: 30 });
  for (const name of ['a', 'b', 'c']) await shelf.put(name, bytes(10));
  expect(await names()).toEqual(['a', 'b', 'c']);
  expect(await shelf.has('a')).toBe(true);
  await shelf.put('d', bytes(1));
  expect(await names()).toEqual(['a', 'c', 'd']);
  expect(await shelf.has('b')).toBe(false);
});

test('a file larger than the bound stays until the next one comes: somebody is about to read it', async () => {
  const shelf = new RegionShelf({ folder, bytesMax: 5 });
  await shelf.put('a', bytes(10));
  expect(await shelf.has('a')).toBe(true);
  await shelf.put('b', bytes(5));
  expect(await names()).toEqual(['b']);
});

test('a folder that was deleted meanwhile is made again', async () => {
  const shelf = new RegionShelf({ folder, bytesMax: 100 });
  await shelf.put('a', bytes(10));
  await rm(folder, { recursive: true });
  expect(await shelf.has('a')).toBe(false);
  await shelf.put('b', bytes(10));
  expect(await names()).toEqual(['b']);
});

test('what a station before left counts, the oldest first to go', async () => {
  await new RegionShelf({ folder, bytesMax: 100 }).put('new', bytes(10));
  await writeFile(join(folder, 'old'), bytes(10));
  await utimes(join(folder, 'old'), new Date(0), new Date(0));
  await new RegionShelf({ folder, bytesMax: 20 }).put('x', bytes(10));
  expect(await names()).toEqual(['new', 'x']);
});
