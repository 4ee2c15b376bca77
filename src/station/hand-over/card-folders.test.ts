import { mkdir, mkdtemp, realpath, rm, symlink } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { allowedCard, type CardFolderSources, cardFolders } from './card-folders.ts';
import { mountsIn } from './removable-mounts.ts';

let top = '';
let sources: CardFolderSources;
beforeEach(async () => {
  top = await realpath(await mkdtemp(join(tmpdir(), 'setside-cards-')));
  for (const name of ['home/jobs', 'card/DCIM', 'watched', 'secret'])
    await mkdir(join(top, name), { recursive: true });
  sources = {
    home: join(top, 'home'),
    copies: [],
    cards: [join(top, 'card')],
    watches: [{ camera: 'cam1', folder: join(top, 'watched') }],
  };
});
afterEach(() => rm(top, { recursive: true, force: true }));

test('a named and a watched folder may be checked, and what lies in them; nothing else, and no page learns what is there', async () => {
  const named = (await cardFolders(sources)).filter(({ folder }) => folder.startsWith(top));
  expect(named.map(({ why, camera }) => [why, camera])).toEqual([
    ['watched', 'cam1'],
    ['named', null],
  ]);
  expect(await allowedCard(sources, join(top, 'card'))).toBe(join(top, 'card'));
  expect(await allowedCard(sources, join(top, 'card/DCIM'))).toBe(join(top, 'card/DCIM'));
  for (const folder of ['secret', 'nowhere', 'card/../secret', 'card-beside'])
    await expect(allowedCard(sources, join(top, folder)), folder).rejects.toMatchObject({
      code: 'card-not-allowed',
    });
  await expect(allowedCard(sources, `${top}/card/../secret`)).rejects.toMatchObject({
    code: 'card-not-allowed',
  });
});

test('a link on a card leads nowhere', async () => {
  await symlink(join(top, 'secret'), join(top, 'card/DCIM/out'));
  await expect(allowedCard(sources, join(top, 'card/DCIM/out'))).rejects.toMatchObject({
    code: 'card-not-allowed',
  });
});

test('the home, and what holds it, is no card whoever named it; a named one that is not in is said to be away', async () => {
  const odd = { ...sources, cards: [sources.home, top, join(top, 'gone')] };
  const folders = (await cardFolders(odd)).filter(({ folder }) => folder.startsWith(top));
  expect(folders.map(({ why }) => why)).toEqual(['watched']);
  await expect(allowedCard(odd, join(top, 'home/jobs'))).rejects.toMatchObject({ code: 'card-not-allowed' });
  await expect(allowedCard(odd, join(top, 'gone'))).rejects.toMatchObject({ code: 'no-card' });
});

// proc_mounts(5), fstab(5): blanks, tabs and line ends in names stand as octal.
test('a table of mounts gives devices with their folders, blanks and all', () => {
  const table =
    'proc /proc proc rw 0 0\n/dev/sdb1 /media/a/MY\\040CARD vfat rw 0 0\ntmpfs /tmp tmpfs rw 0 0\n';
  expect(mountsIn(table)).toEqual([{ device: '/dev/sdb1', folder: '/media/a/MY CARD' }]);
});
