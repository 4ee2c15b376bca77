import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { checkBag } from './index.ts';

const made: string[] = [];
afterEach(async () => {
  for (const folder of made.splice(0)) await rm(folder, { recursive: true, force: true });
});

/** A bag whose manifest lists `listed` with the checksum of "secret". */
async function bag(listed: string): Promise<{ readonly top: string; readonly folder: string }> {
  const top = await mkdtemp(join(tmpdir(), 'setside-bag-'));
  made.push(top);
  const folder = join(top, 'bag');
  await mkdir(join(folder, 'data'), { recursive: true });
  await writeFile(join(top, 'outside'), 'secret');
  const sum = createHash('sha256').update('secret').digest('hex');
  await writeFile(join(folder, 'bagit.txt'), 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n');
  await writeFile(join(folder, 'manifest-sha256.txt'), `${sum}  ${listed}\n`);
  return { top, folder };
}

test('a link out of the bag is named, not followed, and what it points at is missing', async () => {
  const { top, folder } = await bag('data/a');
  await symlink(join(top, 'outside'), join(folder, 'data', 'a'));
  const { valid, findings } = await checkBag(folder);
  expect(valid).toBe(false);
  expect(findings.map(({ finding }) => finding.code).sort()).toEqual(['bag.missing', 'bag.not-a-file']);
});

test('a folder that is a link is not entered', async () => {
  const { top, folder } = await bag('data/sub/outside');
  await symlink(top, join(folder, 'data', 'sub'));
  const { valid, files } = await checkBag(folder);
  expect([valid, files]).toEqual([false, 0]);
});

test('the same bytes in the bag itself are valid', async () => {
  const { folder } = await bag('data/a');
  await writeFile(join(folder, 'data', 'a'), 'secret');
  expect(await checkBag(folder)).toMatchObject({ valid: true, files: 1, bytes: 6, version: '1.0' });
});

test('other bytes of the same size are not', async () => {
  const { folder } = await bag('data/a');
  await writeFile(join(folder, 'data', 'a'), 'secreT');
  const { valid, findings } = await checkBag(folder);
  expect(valid).toBe(false);
  expect(findings.map(({ finding }) => finding.code)).toEqual(['bag.altered']);
});

test('a folder that is not there is no bag, and a file is none', async () => {
  const { top } = await bag('data/a');
  for (const path of ['nothing', 'outside'])
    await expect(checkBag(join(top, path))).rejects.toMatchObject({ code: 'no-bag' });
});
