import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type BagProgress, type BagSource, checkBag, makeBag, unfinishedName } from './index.ts';

let top = '';
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), 'setside-make-bag-'));
});
afterEach(() => rm(top, { recursive: true, force: true }));

/** A file of this text outside the bag. */
async function source(path: string, text: string): Promise<BagSource> {
  const file = join(top, path.replace(/[/%]/g, '-'));
  await writeFile(file, text);
  const sha256 = createHash('sha256').update(text).digest('hex');
  return { path, from: { file, bytes: text.length }, sha256 };
}

function make(folder: string, sources: readonly BagSource[], name = 'QM-26') {
  return makeBag({ folder, name, sources, info: [{ label: 'External-Identifier', value: name }] });
}

// Outside check: sha256sum and sha512sum of GNU coreutils read manifests as they are.
test('a bag is valid, and the system’s own checksum tools agree with its manifests', async () => {
  const folder = join(top, 'bag');
  const sources = [
    await source('jobs/QM-26/originals/cam1/A B.DNG', 'raw'),
    await source('jobs/QM-26/originals/cam1/ü.JPG', ''),
    { path: 'note.txt', from: { text: 'hello' }, sha256: null },
  ];
  expect(await make(folder, sources)).toMatchObject({ valid: true, files: 3, bytes: 8, findings: [] });
  for (const kind of ['sha256', 'sha512'])
    for (const manifest of [`manifest-${kind}.txt`, `tagmanifest-${kind}.txt`]) {
      const said = execFileSync(`${kind}sum`, ['--strict', '-c', manifest], {
        cwd: folder,
        encoding: 'utf8',
      });
      expect(
        said
          .trim()
          .split('\n')
          .every((line) => line.endsWith(': OK')),
      ).toBe(true);
    }
  expect(await readFile(join(folder, 'bag-info.txt'), 'utf8')).toContain('Payload-Oxum: 8.3\n');
  expect((await readdir(folder)).sort()).toEqual([
    'bag-info.txt',
    'bagit.txt',
    'data',
    'manifest-sha256.txt',
    'manifest-sha512.txt',
    'tagmanifest-sha256.txt',
    'tagmanifest-sha512.txt',
  ]);
  await writeFile(join(folder, 'data', 'note.txt'), 'hellO');
  expect(() =>
    execFileSync('sha256sum', ['-c', 'manifest-sha256.txt'], { cwd: folder, stdio: 'ignore' }),
  ).toThrow();
  expect((await checkBag(folder)).valid).toBe(false);
});

test('what software reads back differently is not in a name', async () => {
  const folder = join(top, 'bag');
  const { valid } = await make(folder, [await source('50%.JPG', 'a'), await source('50_.JPG', 'b')]);
  expect(valid).toBe(true);
  expect((await readdir(join(folder, 'data'))).sort()).toEqual(['50_ (2).JPG', '50_.JPG']);
});

test('an original that was altered stops the bag; put back, it goes on, and what is proved is not written again', async () => {
  const folder = join(top, 'bag');
  const first = await source('a.DNG', 'first');
  const second = await source('b.DNG', 'second');
  await writeFile(join(top, 'b.DNG'), 'secand');
  await expect(make(folder, [first, second])).rejects.toMatchObject({ code: 'bag-source-altered' });
  expect((await readdir(folder)).sort()).toEqual(['data', unfinishedName]);
  expect(await readdir(join(folder, 'data'))).toEqual(['a.DNG']);
  expect((await checkBag(folder)).valid).toBe(false);
  const { ino } = await stat(join(folder, 'data', 'a.DNG'));
  await writeFile(join(top, 'b.DNG'), 'second');
  expect(await make(folder, [first, second])).toMatchObject({ valid: true, files: 2 });
  expect((await stat(join(folder, 'data', 'a.DNG'))).ino).toBe(ino);
});

test('a bag that was broken off while all is read again is gone on with, and is no longer one meanwhile', async () => {
  const folder = join(top, 'bag');
  const sources = [await source('a.DNG', 'first'), await source('b.DNG', 'second')];
  const info = [{ label: 'External-Identifier', value: 'QM-26' }];
  const seen: string[] = [];
  const breakOff = async (): Promise<void> => {
    if (seen.includes('reading')) throw new Error('broken off');
  };
  const onProgress = ({ phase }: BagProgress): void => void seen.push(phase);
  await expect(
    makeBag({ folder, name: 'QM-26', sources, info }, { onProgress, rest: breakOff }),
  ).rejects.toThrow('broken off');
  expect((await readdir(folder)).sort()).toContain(unfinishedName);
  const { ino } = await stat(join(folder, 'data', 'a.DNG'));
  const wasBag: boolean[] = [];
  const again = await makeBag(
    { folder, name: 'QM-26', sources, info },
    {
      onProgress: ({ phase }) =>
        void (phase === 'writing' && wasBag.push(existsSync(join(folder, 'bagit.txt')))),
    },
  );
  expect(again).toMatchObject({ valid: true, files: 2 });
  expect((await stat(join(folder, 'data', 'a.DNG'))).ino).toBe(ino);
  expect(wasBag).toEqual([false, false]);
  expect(await readdir(folder)).not.toContain(unfinishedName);
});

test('what an attempt left with other bytes is written anew', async () => {
  const folder = join(top, 'bag');
  await mkdir(join(folder, 'data'), { recursive: true });
  await writeFile(join(folder, unfinishedName), 'QM-26');
  await writeFile(join(folder, 'data', 'a.DNG'), 'firsT');
  await writeFile(join(folder, 'data', 'a.DNG.part'), 'fi');
  expect(await make(folder, [await source('a.DNG', 'first')])).toMatchObject({ valid: true, files: 1 });
});

test('a folder with anything else in it is left as it is', async () => {
  const folder = join(top, 'bag');
  await mkdir(folder);
  await writeFile(join(folder, 'mine.txt'), 'mine');
  await expect(make(folder, [])).rejects.toMatchObject({ code: 'bag-there' });
  expect(await readdir(folder)).toEqual(['mine.txt']);
  const other = join(top, 'other');
  await mkdir(other);
  await writeFile(join(other, unfinishedName), 'QM-27');
  await expect(make(other, [])).rejects.toMatchObject({ code: 'bag-there' });
  const stray = join(top, 'stray');
  await mkdir(join(stray, 'data'), { recursive: true });
  await writeFile(join(stray, unfinishedName), 'QM-26');
  await writeFile(join(stray, 'data', 'z'), 'z');
  await expect(make(stray, [])).rejects.toMatchObject({ code: 'bag-there' });
  expect(await readFile(join(stray, 'data', 'z'), 'utf8')).toBe('z');
});

test('a finished bag is not made again over itself', async () => {
  const folder = join(top, 'bag');
  await make(folder, []);
  await expect(make(folder, [])).rejects.toMatchObject({ code: 'bag-there' });
});
