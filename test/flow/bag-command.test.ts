import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Ran, runProgram } from './clients.ts';

const setside = (...args: string[]): Promise<Ran> =>
  runProgram(process.execPath, [join(import.meta.dirname, '../../bin/setside.mjs'), ...args]);

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-bag-command-'));
  await mkdir(join(folder, 'data'));
  await writeFile(join(folder, 'data', 'mug.txt'), 'mug');
  const sum = createHash('sha256').update('mug').digest('hex');
  await writeFile(join(folder, 'bagit.txt'), 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n');
  await writeFile(join(folder, 'manifest-sha256.txt'), `${sum}  data/mug.txt\n`);
});
afterEach(() => rm(folder, { recursive: true, force: true }));

test('setside bag check ends with 0 for a valid bag, 1 for one that was altered, 3 where there is none', async () => {
  const good = await setside('bag', 'check', folder, '--json');
  expect(good.code).toBe(0);
  expect(JSON.parse(good.stdout)).toMatchObject({ valid: true, version: '1.0', files: 1, bytes: 3 });
  await writeFile(join(folder, 'data', 'mug.txt'), 'jug');
  const altered = await setside('bag', 'check', folder);
  expect(altered.code).toBe(1);
  expect(altered.stdout).toContain('Altered: the bytes of data/mug.txt');
  const none = await setside('bag', 'check', join(folder, 'nothing'));
  expect(none.code).toBe(3);
  expect(none.stderr).toContain('bagit.txt');
});
