import { randomUUID } from 'node:crypto';
import { cp, mkdtemp, readdir, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Keep, openKeep } from '../keep.ts';
import { fromStart } from '../testing/simulated-home.ts';
import { verifyOriginals } from '../verify.ts';
import { openSecondPlaces } from './second-places.ts';

let root = '';
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-restore-'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

function openAt(home: string): Promise<Keep> {
  return openKeep({
    home,
    inspect: async () => ({ kind: 'whole' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
}

/** Returns the frame. */
async function upload(keep: Keep, name: string): Promise<string> {
  const arrival = await keep.folderOf('cam1').open(`/${name}`, fromStart);
  await arrival.write(new TextEncoder().encode(name.repeat(100)));
  await arrival.finish('closed');
  for await (const record of keep.records())
    if (record.type === 'kept' && record.name === name) return record.frame;
  throw new Error(`${name} was not kept`);
}

async function bytesOfJournal(folder: string): Promise<number> {
  const names = await readdir(join(folder, 'journal')).catch(() => []);
  const sizes = await Promise.all(
    names.map(async (name) => (await stat(join(folder, 'journal', name))).size),
  );
  return sizes.reduce((sum, size) => sum + size, 0);
}

test('K11.11 a home that is gone is made again from a second place alone: originals, choices, and it takes new files', async () => {
  const home = join(root, 'home');
  const place = join(root, 'place');
  const keep = await openAt(home);
  const places = openSecondPlaces({
    home,
    folders: [place],
    keep,
    newId: randomUUID,
    say: () => {},
    retryMs: 20,
    lookEveryMs: 20,
  });
  const frame = await upload(keep, 'A.DNG');
  await upload(keep, 'B.DNG');
  await keep.append({ type: 'mark-set', frame, mark: 'hero' });
  await vi.waitFor(async () => {
    expect(places.statuses().every(({ waiting }) => waiting === 0)).toBe(true);
    expect(await bytesOfJournal(place)).toBe(await bytesOfJournal(home));
  }, 30_000);
  await places.close();
  await keep.close();
  await rm(home, { recursive: true });

  // As `docs/home.md` says it.
  const again = join(root, 'again');
  for (const folder of ['jobs', 'journal'])
    await cp(join(place, folder), join(again, folder), { recursive: true });
  expect(await verifyOriginals(again)).toMatchObject({ files: 2, findings: [], bad: [] });
  const restored = await openAt(again);
  const marks = [];
  for await (const record of restored.records()) if (record.type === 'mark-set') marks.push(record);
  expect(marks).toMatchObject([{ frame, mark: 'hero' }]);
  await upload(restored, 'C.DNG');
  await restored.close();
  expect(await verifyOriginals(again)).toMatchObject({ files: 3, findings: [] });
  const path = join(again, 'jobs/QM-26/originals/cam1/A.DNG');
  expect(await readFile(path, 'utf8')).toBe('A.DNG'.repeat(100));
});
