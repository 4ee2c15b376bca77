import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { openKeep } from '../keep/index.ts';
import { Closers } from './closers.ts';
import { resolveOptions } from './core/options.ts';
import { openShelves } from './open-shelves.ts';

const home = mkdtempSync(join(tmpdir(), 'setside-shelves-'));
afterAll(() => rmSync(home, { recursive: true }));

test('a home that another station holds is left without a camera of ours', async () => {
  const held = await openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: () => 'id',
    now: Date.now,
    jobOf: () => 'unsorted',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
  const closers = new Closers(() => {});
  try {
    const opened = openShelves(resolveOptions([], home), Date.now, () => {}, closers);
    await expect(opened).rejects.toMatchObject({ code: 'home-in-use' });
    expect(readdirSync(join(home, 'keys'))).toEqual([]);
  } finally {
    await closers.closeAll();
    await held.close();
  }
});
