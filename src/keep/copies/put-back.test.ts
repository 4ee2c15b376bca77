import { createHash, randomUUID } from 'node:crypto';
import { mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Keep, openKeep } from '../keep.ts';
import { fromStart } from '../testing/simulated-home.ts';
import { verifyOriginals } from '../verify.ts';
import { putBack } from './put-back.ts';
import { openSecondPlaces } from './second-places.ts';

let root = '';
let home = '';
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-put-back-'));
  home = join(root, 'home');
});
afterEach(() => rm(root, { recursive: true, force: true }));

const original = 'jobs/QM-26/originals/cam1/A.DNG';
const bytes = 'A.DNG '.repeat(100);

function openAt(): Promise<Keep> {
  const inspect = async (): Promise<{ kind: 'whole' }> => ({ kind: 'whole' });
  const rest = { newId: randomUUID, now: Date.now, jobOf: () => 'QM-26', diskFloorBytes: 0, hashWorkers: 0 };
  return openKeep({ home, inspect, ...rest });
}

async function upload(keep: Keep, text: string): Promise<void> {
  const arrival = await keep.folderOf('cam1').open('/A.DNG', fromStart);
  await arrival.write(new TextEncoder().encode(text));
  await arrival.finish('closed');
}

/** A home with one original, copied to these places; nothing runs on it afterwards. */
async function copiedTo(...names: string[]): Promise<void> {
  const keep = await openAt();
  const folders = names.map((name) => join(root, name));
  const places = openSecondPlaces({ home, folders, keep, newId: randomUUID, say: () => {}, retryMs: 20 });
  await upload(keep, bytes);
  await vi.waitFor(
    () =>
      expect(places.statuses().map(({ place, waiting }) => [place !== null, waiting])).toEqual(
        names.map(() => [true, 0]),
      ),
    30_000,
  );
  await vi.waitFor(() => expect(keep.places().size).toBe(names.length), 30_000);
  await places.close();
  await keep.close();
}

const inHome = (): Promise<string> => readFile(join(home, original), 'utf8');

// The hash is that of Node's crypto (FIPS 180-4), reckoned here from what the camera sent, not by the code under test.
const sent = createHash('sha256').update(bytes).digest('hex');

test('K11.12 an altered original is put back as the camera sent it, and what lay there is put aside, not deleted', async () => {
  await copiedTo('one');
  await writeFile(join(home, original), 'scratched');
  const folder = join(root, 'one');
  expect(await putBack(home, [original])).toMatchObject([
    { kind: 'put-back', original, folder, aside: 'set-aside/A.DNG' },
  ]);
  expect(
    createHash('sha256')
      .update(await inHome())
      .digest('hex'),
  ).toBe(sent);
  expect(await readFile(join(home, 'set-aside/A.DNG'), 'utf8')).toBe('scratched');
  expect(await readFile(join(folder, original), 'utf8')).toBe(bytes);
  expect(await verifyOriginals(home)).toMatchObject({ findings: [], bad: [] });
  // A second time what was put aside first stays.
  await writeFile(join(home, original), 'again');
  expect(await putBack(home, ['A.DNG'])).toMatchObject([{ kind: 'put-back', aside: 'set-aside/2-A.DNG' }]);
  expect(await readFile(join(home, 'set-aside/A.DNG'), 'utf8')).toBe('scratched');
});

test('K11.12 an original that is gone is put back, and one that is as received is left alone', async () => {
  await copiedTo('one');
  await rename(join(root, 'one'), join(root, 'off'));
  expect(await putBack(home, ['A.DNG'])).toMatchObject([{ kind: 'as-received' }]);
  await rename(join(root, 'off'), join(root, 'one'));
  await rm(join(home, original));
  expect(await putBack(home, ['A.DNG'])).toMatchObject([{ kind: 'put-back', aside: null }]);
  expect(await inHome()).toBe(bytes);
});

test('K11.12 a copy that is bad is not put back: the next place is asked, and where none holds it nothing is moved', async () => {
  await copiedTo('one', 'two');
  await writeFile(join(home, original), 'scratched');
  await writeFile(join(root, 'one', original), bytes.replace('A', 'B'));
  await rename(join(root, 'two'), join(root, 'off'));
  expect(await putBack(home, ['A.DNG'])).toMatchObject([{ kind: 'no-copy', away: [join(root, 'two')] }]);
  expect(await inHome()).toBe('scratched');
  // Nothing was written either.
  for (const name of ['set-aside', 'arriving']) expect(await readdir(home)).not.toContain(name);
  await rename(join(root, 'off'), join(root, 'two'));
  expect(await putBack(home, ['A.DNG'])).toMatchObject([{ kind: 'put-back', folder: join(root, 'two') }]);
  expect(await inHome()).toBe(bytes);
});

test('K11.12 a later file of the same name lies beside and stays, and a name nobody bears is refused', async () => {
  await copiedTo('one');
  await rm(join(home, original));
  const keep = await openAt();
  await upload(keep, 'a later frame');
  await keep.close();
  const names = await readdir(dirname(join(home, original)));
  expect(await putBack(home, [original])).toMatchObject([{ kind: 'put-back', original, aside: null }]);
  expect(await inHome()).toBe(bytes);
  const [later = ''] = names;
  expect(await readFile(join(dirname(join(home, original)), later), 'utf8')).toBe('a later frame');
  await expect(putBack(home, ['X.DNG'])).rejects.toMatchObject({ code: 'no-original' });
});
