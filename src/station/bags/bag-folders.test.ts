import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { allowedBag, type BagFolderSources, bagPlaces, bagsThere, isBegun } from './bag-folders.ts';

let top = '';
let sources: BagFolderSources;
beforeEach(async () => {
  top = await realpath(await mkdtemp(join(tmpdir(), 'setside-bag-folders-')));
  for (const name of ['home/jobs', 'archive/copy', 'secret', 'card/DCIM'])
    await mkdir(join(top, name), { recursive: true });
  sources = {
    home: join(top, 'home'),
    copies: [join(top, 'archive/copy')],
    cards: [],
    watches: [],
    destinations: async () => [join(top, 'archive'), join(top, 'card'), join(top, 'gone')],
  };
});
afterEach(() => rm(top, { recursive: true, force: true }));

async function refused(folder: string, kind: 'make' | 'check' = 'make'): Promise<void> {
  await expect(allowedBag(sources, kind, folder), folder).rejects.toMatchObject({ code: 'bag-not-allowed' });
}

test('a bag may lie in a destination, in a folder that is not there yet, and nowhere else', async () => {
  const ours = (await bagPlaces(sources)).filter(({ folder }) => folder.startsWith(top));
  expect(ours).toEqual([
    { folder: join(top, 'archive'), why: 'destination', mayMake: true },
    { folder: join(top, 'card'), why: 'destination', mayMake: false },
  ]);
  expect(await allowedBag(sources, 'make', join(top, 'archive/QM-26'))).toBe(join(top, 'archive/QM-26'));
  expect(await allowedBag(sources, 'check', join(top, 'archive/a/b'))).toBe(join(top, 'archive/a/b'));
  for (const kind of ['make', 'check'] as const)
    for (const folder of ['secret', 'gone/bag', 'archive-beside', '../bag', ''])
      await refused(join(top, folder), kind);
  await refused('archive/QM-26');
});

test('never the home nor a second place, what holds them or lies in them, whichever way leads there', async () => {
  const wide = { ...sources, destinations: async () => [top, join(top, 'home'), join(top, 'home/jobs')] };
  expect((await bagPlaces(wide)).map(({ folder }) => folder).filter((each) => each.startsWith(top))).toEqual([
    top,
  ]);
  await symlink(join(top, 'home/jobs'), join(top, 'archive/link'));
  await symlink(join(top, 'secret'), join(top, 'archive/out'));
  for (const folder of ['home', 'home/jobs/bag', 'archive/copy/bag', 'archive', 'archive/link/bag'])
    for (const kind of ['make', 'check'] as const)
      await expect(allowedBag(wide, kind, join(top, folder)), folder).rejects.toMatchObject({
        code: 'bag-not-allowed',
      });
  await refused(join(top, 'archive/out/bag'));
});

test('the card of a camera is never written to; a bag on one can be read', async () => {
  await refused(join(top, 'card/bag'));
  expect(await allowedBag(sources, 'check', join(top, 'card/bag'))).toBe(join(top, 'card/bag'));
});

test('bags that lie there are found, finished or not; a folder of others with a file of that name is none', async () => {
  const archive = join(top, 'archive');
  for (const name of ['a', 'b', 'c', 'd']) await mkdir(join(archive, name));
  await writeFile(join(archive, 'a/bagit.txt'), '');
  await writeFile(join(archive, 'b/unfinished.txt'), 'QM-26');
  await writeFile(join(archive, 'c/unfinished.txt'), 'mine');
  await writeFile(join(archive, 'c/novel.txt'), 'mine');
  expect(await bagsThere([{ folder: archive, why: 'destination', mayMake: true }])).toEqual([
    { folder: join(archive, 'a'), state: 'whole' },
    { folder: join(archive, 'b'), state: 'unfinished' },
  ]);
  expect(await Promise.all(['a', 'b', 'c', 'd'].map((name) => isBegun(join(archive, name))))).toEqual([
    true,
    true,
    false,
    false,
  ]);
});
