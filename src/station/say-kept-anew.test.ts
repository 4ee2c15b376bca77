import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Finding } from '../facts/index.ts';
import { sentence } from '../words/index.ts';
import { sayKeptAnew } from './say-kept-anew.ts';

test('an original that is gone is said to be gone, and no file to stay beside it', async () => {
  const home = await mkdtemp(join(tmpdir(), 'setside-anew-'));
  const said: string[] = [];
  const log = (_: string, finding: Finding): void => void said.push(sentence(finding));
  try {
    await writeFile(join(home, 'A.DNG'), 'altered');
    await sayKeptAnew(home, 'A.DNG', '2-A.DNG', log);
    await rm(join(home, 'A.DNG'));
    await sayKeptAnew(home, 'A.DNG', '2-A.DNG', log);
  } finally {
    await rm(home, { recursive: true });
  }
  expect(said[0]).toMatch(/does not hold the bytes.*stays beside it/);
  expect(said[1]).toMatch(/^A\.DNG is not on the disk any more/);
  expect(said[1]).not.toContain('beside');
});
