import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { DeliveryEntry } from './delivery-log.ts';
import { withoutLost } from './without-lost.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-lost-'));
  await writeFile(join(folder, 'whole.jpg'), 'four');
  await writeFile(join(folder, 'cut.jpg'), 'fo');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const made = (file: string): DeliveryEntry => ({
  made: {
    ...{ file, bytes: 4, sha256: '', widthPx: 1, heightPx: 1, frame: file, shot: '' },
    ...{ original: '', originalSha256: '', look: '', lookSha256: '', findings: [] },
  },
});
const state = (now: 'paused' | 'done'): DeliveryEntry => ({ state: now, atMs: 0, finding: null });
const three = [made('whole.jpg'), made('cut.jpg'), made('gone.jpg')];

test('what is not there, or not whole, counts as not made while a delivery is under way', async () => {
  expect(await withoutLost(three, folder)).toEqual([made('whole.jpg')]);
  expect(await withoutLost([...three, state('paused')], folder)).toEqual([
    made('whole.jpg'),
    state('paused'),
  ]);
});

test('what has ended stays as it was told', async () => {
  expect(await withoutLost([...three, state('done')], folder)).toEqual([...three, state('done')]);
});
