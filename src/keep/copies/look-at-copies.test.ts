import { mkdir, mkdtemp, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { PlaceAddress } from './copy-shapes.ts';
import { lookAtCopies } from './look-at-copies.ts';
import { foundPlace } from './place-marker.ts';

let root: string;
let address: PlaceAddress;
const copies = ['A', 'B', 'C', 'D'].map((name) => ({
  arrival: name,
  original: `jobs/QM-26/originals/cam1/${name}.DNG`,
  sizeBytes: 5,
}));
const pathOf = (index: number): string => join(address.folder, copies[index]?.original ?? '');

beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-look-'));
  address = { home: join(root, 'home'), folder: join(root, 'second'), place: 'p1' };
  await mkdir(address.home);
  foundPlace(address);
  await mkdir(dirname(pathOf(0)), { recursive: true });
  for (const index of copies.keys()) await writeFile(pathOf(index), 'bytes');
});

afterEach(() => rm(root, { recursive: true, force: true }));

test('K11.9 copies that are there in their size are not lost', () => {
  expect(lookAtCopies(address, copies)).toEqual({ kind: 'looked', lost: [], journalIsBehind: false });
});

test('K11.9 a copy that is gone, has another size, or is something else under its name is lost', async () => {
  await rm(pathOf(0));
  await writeFile(pathOf(1), 'more bytes');
  await rename(pathOf(2), join(root, 'elsewhere'));
  await symlink(join(root, 'elsewhere'), pathOf(2));
  expect(lookAtCopies(address, copies)).toEqual({
    kind: 'looked',
    lost: [
      { arrival: 'A', why: 'missing' },
      { arrival: 'B', why: 'size' },
      { arrival: 'C', why: 'size' },
    ],
    journalIsBehind: false,
  });
});

test('K11.9 a place that is away, or another, has lost nothing', async () => {
  await rename(address.folder, join(root, 'unplugged'));
  expect(lookAtCopies(address, copies)).toMatchObject({ kind: 'place', trouble: 'away' });
  foundPlace({ ...address, place: 'p2' });
  expect(lookAtCopies(address, copies)).toMatchObject({ kind: 'place', trouble: 'foreign' });
});
