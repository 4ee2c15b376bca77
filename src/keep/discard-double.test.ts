import { link, mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { discardDouble } from './discard-double.ts';

/** Longer than one read, and no multiple of it. */
const whole = Buffer.from(Uint8Array.from({ length: 2_500_003 }, (_, i) => (i * 31 + (i >> 8)) & 0xff));
let folder: string;
const at = (name: string): string => join(folder, name);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-double-'));
  await writeFile(at('original'), whole);
});

afterEach(() => rm(folder, { recursive: true, force: true }));

async function stays(name: string, bytes?: Uint8Array): Promise<void> {
  expect(await discardDouble(at(name), at('original'))).toBe(false);
  if (bytes !== undefined) expect((await readFile(at(name))).equals(bytes)).toBe(true);
  expect((await readFile(at('original'))).equals(whole)).toBe(true);
}

test('K1.3 what another file begins with is taken away, and the other stays as it is', async () => {
  for (const length of [0, 1, 1_048_576, 1_048_577, whole.length]) {
    await writeFile(at('attempt'), whole.subarray(0, length));
    expect(await discardDouble(at('attempt'), at('original')), String(length)).toBe(true);
    expect(await readdir(folder)).toEqual(['original']);
  }
  expect((await readFile(at('original'))).equals(whole)).toBe(true);
});

test('K1.3 one other byte, at any edge of what is read at a time, or one more, and it stays', async () => {
  for (const position of [0, 1_048_575, 1_048_576, 2_097_152, whole.length - 1]) {
    const other = Buffer.from(whole);
    other[position] = (other[position] ?? 0) ^ 1;
    await writeFile(at('attempt'), other);
    await stays('attempt', other);
  }
  const longer = Buffer.concat([whole, Buffer.from([0])]);
  await writeFile(at('attempt'), longer);
  await stays('attempt', longer);
});

test('K1.3 a file is no double of itself, under its own name or another', async () => {
  await stays('original', whole);
  await link(at('original'), at('second-name'));
  await stays('second-name', whole);
});

test('K1.3 links and folders are not followed and not taken away', async () => {
  await mkdir(at('folder'));
  await stays('folder');
  await writeFile(at('elsewhere'), whole.subarray(0, 10));
  await symlink(at('elsewhere'), at('link'));
  await expect(discardDouble(at('link'), at('original'))).rejects.toMatchObject({ code: 'ELOOP' });
  await expect(discardDouble(at('elsewhere'), at('link'))).rejects.toMatchObject({ code: 'ELOOP' });
  await expect(discardDouble(at('elsewhere'), at('gone'))).rejects.toMatchObject({ code: 'ENOENT' });
  expect((await readdir(folder)).sort()).toEqual(['elsewhere', 'folder', 'link', 'original']);
});
