import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { homeAbove } from './home-above.ts';

const folder = realpathSync(mkdtempSync(join(tmpdir(), 'setside-above-')));
afterAll(() => rmSync(folder, { recursive: true }));

const home = join(folder, 'Setside');
mkdirSync(join(home, 'journal'), { recursive: true });
mkdirSync(join(home, 'jobs/unsorted/originals/cam1'), { recursive: true });

test('a home is found from itself, from any folder in it, and from one that is not there yet', async () => {
  for (const inside of ['.', 'jobs/unsorted/originals/cam1', 'jobs/new/deeper']) {
    expect(await homeAbove(join(home, inside)), inside).toBe(home);
  }
});

test('a link into a home leads to it', async () => {
  symlinkSync(join(home, 'jobs'), join(folder, 'link'));
  expect(await homeAbove(join(folder, 'link', 'unsorted'))).toBe(home);
});

test('beside a home, and in a folder that merely keeps a journal, there is none', async () => {
  mkdirSync(join(folder, 'diaries/journal'), { recursive: true });
  expect(await homeAbove(folder)).toBeNull();
  expect(await homeAbove(join(folder, 'diaries'))).toBeNull();
});
