import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { partName } from './core/names.ts';
import { FolderPlace } from './folder-place.ts';
import type { FileToSend, SendWatch } from './open-place.ts';

let home: string;
let disk: string;

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-folder-'));
  disk = join(home, 'disk');
  await mkdir(disk);
});

afterEach(() => rm(home, { recursive: true, force: true }));

async function file(name: string, content: string | Buffer): Promise<FileToSend> {
  const path = join(home, `${name}.made`);
  await writeFile(path, content);
  const bytes = await readFile(path);
  return { path, name, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') };
}

function watch(
  progress: (bytes: number) => void = () => {},
  signal = new AbortController().signal,
): SendWatch {
  return { signal, progress, token: () => null, keepToken: async () => {} };
}

const there = async (): Promise<string[]> => (await readdir(disk, { recursive: true })).sort();

test('a file comes under its name in folders that are made, and nothing else is left', async () => {
  const a = await file('a.tif', 'one');
  const sent = await new FolderPlace(disk, ['QM-26', 'Print']).send(a, watch());
  expect(sent).toEqual({ where: join(disk, 'QM-26/Print/a.tif'), proof: 'read-back' });
  expect(await readFile(sent.where, 'utf8')).toBe('one');
  expect(await there()).toEqual(['QM-26', 'QM-26/Print', 'QM-26/Print/a.tif']);
});

test('what is left of an earlier attempt goes where the file lies there already', async () => {
  const a = await file('a.tif', 'one');
  await writeFile(join(disk, 'a.tif'), 'one');
  await writeFile(join(disk, partName(a.name, a.sha256)), 'on');
  await new FolderPlace(disk, []).send(a, watch());
  expect(await there()).toEqual(['a.tif']);
});

test('a part that is longer than the file is begun anew', async () => {
  const a = await file('a.tif', 'one');
  await writeFile(join(disk, partName(a.name, a.sha256)), 'one and more');
  const heard: number[] = [];
  await new FolderPlace(disk, []).send(
    a,
    watch((sofar) => heard.push(sofar)),
  );
  expect(heard[0]).toBe(0);
  expect(await readFile(join(disk, 'a.tif'), 'utf8')).toBe('one');
});

test('what was begun is gone on with; what was begun wrongly is found out and made anew', async () => {
  const bytes = Buffer.alloc(3_000_000, 'abcdefg');
  const a = await file('a.tif', bytes);
  const part = join(disk, partName(a.name, a.sha256));
  await writeFile(part, bytes.subarray(0, 1_999_999));
  const heard: number[] = [];
  await new FolderPlace(disk, []).send(
    a,
    watch((sofar) => heard.push(sofar)),
  );
  expect(heard[0]).toBe(1_999_999);
  expect(await readFile(join(disk, 'a.tif'))).toEqual(bytes);
  await rm(join(disk, 'a.tif'));
  await writeFile(part, Buffer.alloc(1000));
  await expect(new FolderPlace(disk, []).send(a, watch())).rejects.toMatchObject({
    next: 'again',
    finding: { code: 'send.other-bytes' },
  });
  await new FolderPlace(disk, []).send(a, watch());
  expect((await readFile(join(disk, 'a.tif'))).equals(bytes)).toBe(true);
  expect(await there()).toEqual(['a.tif']);
});

test.each(['other bytes', 'onE'])('a file of that name stays as it is: %s', async (theirs) => {
  const a = await file('a.tif', 'one');
  await writeFile(join(disk, 'a.tif'), theirs);
  await expect(new FolderPlace(disk, []).send(a, watch())).rejects.toMatchObject({
    next: 'file',
    finding: { code: 'send.name-taken', args: { name: 'a.tif' } },
  });
  expect(await readFile(join(disk, 'a.tif'), 'utf8')).toBe(theirs);
  expect(await there()).toEqual(['a.tif']);
});

test('a file that comes there while ours is copied stays as it is', async () => {
  const a = await file('a.tif', Buffer.alloc(2_000_000));
  const theirs = (sofar: number): void => {
    if (sofar === a.bytes) writeFileSync(join(disk, 'a.tif'), 'theirs');
  };
  await expect(new FolderPlace(disk, []).send(a, watch(theirs))).rejects.toMatchObject({
    finding: { code: 'send.name-taken' },
  });
  expect(await readFile(join(disk, 'a.tif'), 'utf8')).toBe('theirs');
});

test('the same bytes under that name are as good as sent', async () => {
  const a = await file('a.tif', 'one');
  await writeFile(join(disk, 'a.tif'), 'one');
  expect((await new FolderPlace(disk, []).send(a, watch())).proof).toBe('read-back');
});

test('a disk that is not plugged in: its folder is not made on another one', async () => {
  const a = await file('a.tif', 'one');
  const missing = join(home, 'media/CLIENT');
  await expect(new FolderPlace(missing, ['QM-26']).send(a, watch())).rejects.toMatchObject({
    next: 'stop',
    finding: { code: 'send.no-folder', args: { folder: missing } },
  });
  expect(await readdir(home)).not.toContain('media');
});

test('a file that was changed after it was made, or is gone, is not handed over', async () => {
  const a = await file('a.tif', 'one');
  await writeFile(a.path, 'two');
  const place = new FolderPlace(disk, []);
  await expect(place.send(a, watch())).rejects.toMatchObject({ finding: { code: 'send.file-changed' } });
  await rm(a.path);
  await expect(place.send(a, watch())).rejects.toMatchObject({ finding: { code: 'send.file-gone' } });
  expect((await there()).filter((name) => !name.startsWith('.'))).toEqual([]);
  await place.letGo(a);
  expect(await there()).toEqual([]);
});

test('who ends it is heard', async () => {
  const abort = new AbortController();
  const a = await file('a.tif', Buffer.alloc(3_000_000));
  const stop = (): void => abort.abort(new Error('ended'));
  await expect(new FolderPlace(disk, []).send(a, watch(stop, abort.signal))).rejects.toThrow('ended');
  expect((await there()).filter((name) => !name.startsWith('.'))).toEqual([]);
});
