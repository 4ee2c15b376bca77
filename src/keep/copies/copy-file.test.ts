import { createHash } from 'node:crypto';
import { access, lstat, mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { copyFile } from './copy-file.ts';
import type { FileToCopy, PlaceAddress } from './copy-shapes.ts';
import { foundPlace } from './place-marker.ts';
import { readBack } from './read-back.ts';

let root: string;
let address: PlaceAddress;
const bytes = Buffer.from(Uint8Array.from({ length: 5_000_001 }, (_, i) => (i * 31 + (i >> 8)) & 0xff));
const original = 'jobs/QM-26/originals/cam1/X.DNG';

function file(change: Partial<FileToCopy> = {}): FileToCopy {
  return {
    arrival: 'a1',
    original,
    sizeBytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
    ...change,
  };
}

beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-copy-'));
  address = { home: join(root, 'home'), folder: join(root, 'second'), place: 'p1' };
  await mkdir(join(address.home, 'jobs/QM-26/originals/cam1'), { recursive: true });
  await writeFile(join(address.home, original), bytes);
  foundPlace(address);
});

afterEach(() => rm(root, { recursive: true, force: true }));

test('K11.2 a copy has the bytes of the original, and says whether it lies on another device', async () => {
  const outcome = copyFile(address, file());
  expect(outcome).toMatchObject({ kind: 'copied', otherDevice: false });
  expect((await readFile(join(address.folder, original))).equals(bytes)).toBe(true);
});

test('K11.2 a copy that reads back wrong is not one, and does not get its name', async () => {
  const wrong = (path: string): ReturnType<typeof readBack> => ({
    ...readBack(path),
    sha256: 'f'.repeat(64),
  });
  expect(copyFile(address, file(), wrong)).toEqual({ kind: 'differs' });
  await expect(access(join(address.folder, original))).rejects.toMatchObject({ code: 'ENOENT' });
});

test('K11.3 an original that is not as received is not doubled', async () => {
  await writeFile(join(address.home, original), Buffer.concat([bytes.subarray(1), bytes.subarray(0, 1)]));
  expect(copyFile(address, file())).toEqual({ kind: 'original-differs' });
  await writeFile(join(address.home, original), bytes.subarray(1));
  expect(copyFile(address, file())).toEqual({ kind: 'original-differs' });
  await rm(join(address.home, original));
  expect(copyFile(address, file())).toEqual({ kind: 'original-missing' });
  await expect(access(join(address.folder, original))).rejects.toMatchObject({ code: 'ENOENT' });
});

test('K11.4 what lies in its place is read, and set aside where it is not the same', async () => {
  expect(copyFile(address, file())).toMatchObject({ kind: 'copied' });
  // Found by another start whose record was lost: nothing is written again.
  expect(copyFile(address, file({ arrival: 'a2' }))).toMatchObject({ kind: 'copied' });
  await writeFile(join(address.folder, original), 'somebody wrote here');
  expect(copyFile(address, file())).toMatchObject({ kind: 'copied' });
  expect((await readFile(join(address.folder, original))).equals(bytes)).toBe(true);
  expect(await readFile(join(address.folder, 'set-aside/X.DNG'), 'utf8')).toBe('somebody wrote here');
  await writeFile(join(address.folder, original), 'and again');
  expect(copyFile(address, file())).toMatchObject({ kind: 'copied' });
  expect((await readdir(join(address.folder, 'set-aside'))).sort()).toEqual(['2-X.DNG', 'X.DNG']);
});

test('K11.4 what lies in its place and cannot be read, or is no file, is set aside too', async () => {
  copyFile(address, file());
  const failing = (path: string): ReturnType<typeof readBack> => {
    if (path.endsWith('X.DNG')) throw Object.assign(new Error('a bad sector'), { code: 'EIO' });
    return readBack(path);
  };
  expect(copyFile(address, file(), failing)).toMatchObject({ kind: 'copied' });
  const target = join(address.folder, original);
  await rm(target);
  await mkdir(target);
  expect(copyFile(address, file())).toMatchObject({ kind: 'copied' });
  await rm(target);
  await symlink(join(address.home, original), target);
  expect(copyFile(address, file())).toMatchObject({ kind: 'copied' });
  expect(await readdir(join(address.folder, 'set-aside'))).toHaveLength(3);
  expect((await lstat(target)).isFile()).toBe(true);
  expect((await readFile(target)).equals(bytes)).toBe(true);
});

test('K11.5 an empty mount point and the place of another station are told apart from ours', async () => {
  await rm(join(address.folder, 'setside-copy.json'));
  expect(copyFile(address, file())).toMatchObject({ kind: 'place', trouble: 'away' });
  foundPlace({ ...address, place: 'p2' });
  expect(copyFile(address, file())).toMatchObject({ kind: 'place', trouble: 'foreign' });
  expect(foundPlace(address)).toMatchObject({ kind: 'place', trouble: 'foreign' });
  await writeFile(join(address.folder, 'setside-copy.json'), 'not json');
  expect(copyFile(address, file())).toMatchObject({ kind: 'place', trouble: 'foreign' });
  await rm(address.folder, { recursive: true });
  expect(copyFile(address, file())).toMatchObject({ kind: 'place', trouble: 'away' });
});

test('K11.6 an original that is a link is not followed', async () => {
  await rm(join(address.home, original));
  await writeFile(join(root, 'secret'), bytes);
  await symlink(join(root, 'secret'), join(address.home, original));
  expect(copyFile(address, file())).toMatchObject({ kind: 'original-unreadable' });
});

test('K11.3 an original that opens and cannot be read is no trouble of the place', async () => {
  await rm(join(address.home, original));
  // A folder opens like a file, in its size, and its bytes are refused (EISDIR, read(2)).
  await mkdir(join(address.home, original));
  const { size } = await lstat(join(address.home, original));
  expect(copyFile(address, file({ sizeBytes: size }))).toMatchObject({ kind: 'original-unreadable' });
});

test('a file is read back whole, also where it does not end at a block, and from a block on', async () => {
  const whole = readBack(join(address.home, original));
  expect(whole).toMatchObject({ sha256: file().sha256, sizeBytes: bytes.length });
  const rest = readBack(join(address.home, original), 65_536);
  expect(rest.sha256).toBe(createHash('sha256').update(bytes.subarray(65_536)).digest('hex'));
});

test('an empty original is copied too', async () => {
  await writeFile(join(address.home, original), '');
  const empty = file({ sizeBytes: 0, sha256: createHash('sha256').digest('hex') });
  expect(copyFile(address, empty)).toMatchObject({ kind: 'copied' });
  expect(await readFile(join(address.folder, original))).toHaveLength(0);
});
