import { randomUUID } from 'node:crypto';
import { cp, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openKeep } from '../index.ts';
import { type FileReadAgain, readAgain } from './read-again.ts';

let top = '';
let home = '';
let place = '';
const originals: string[] = [];
const arrivals: string[] = [];
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), 'setside-again-'));
  home = join(top, 'home');
  place = join(top, 'place');
  originals.length = 0;
  arrivals.length = 0;
  const keep = await openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
  await keep.append({ type: 'place-made', place: 'p1', folder: place });
  for (const name of ['A.JPG', 'B.JPG', 'C.JPG']) {
    const sent = await keep
      .folderOf('cam1')
      .open(`/${name}`, { via: 'ftp', at: 'start', announcedBytes: null });
    await sent.write(new TextEncoder().encode(name.repeat(20)));
    await sent.finish('closed');
  }
  for await (const record of keep.records()) {
    if (record.type !== 'kept') continue;
    originals.push(record.original);
    arrivals.push(record.arrival);
  }
  for (const arrival of arrivals)
    await keep.append({ type: 'copied', arrival, place: 'p1', readBack: 'cached', otherDevice: true });
  await keep.close();
  await cp(join(home, 'jobs'), join(place, 'jobs'), { recursive: true });
  await cp(join(home, 'journal'), join(place, 'journal'), { recursive: true });
  await writeFile(join(place, 'setside-copy.json'), '{"setside":"second place","place":"p1"}');
});
afterEach(() => rm(top, { recursive: true, force: true }));

async function again(after: string | null = null, onFile: () => Promise<void> = async () => {}) {
  const read: FileReadAgain[] = [];
  const end = await readAgain({ home, after, memoryCounts: true }, (file) => read.push(file), onFile);
  return { read, end };
}

test('all is read, and an original and a copy with other bytes are found, each where it is', async () => {
  await writeFile(join(home, originals[0] ?? ''), 'x'.repeat(100));
  await rm(join(home, originals[1] ?? ''));
  await writeFile(join(place, originals[2] ?? ''), 'y'.repeat(100));
  const { read, end } = await again();
  expect(read.map(({ trouble, badIn }) => [trouble, badIn])).toEqual([
    ['differs', []],
    ['missing', []],
    [null, ['p1']],
  ]);
  // 5 letters 20 times, each in two places.
  expect(read.at(-1)).toMatchObject({ doneFiles: 3, files: 3, doneBytes: 600, allBytes: 600 });
  expect(end).toMatchObject({
    files: 3,
    places: [{ place: 'p1', files: 3, wasRead: true, journalIsBad: false }],
  });
});

test('a second place that was given up is not read, and nothing is said of it', async () => {
  await writeFile(join(place, originals[2] ?? ''), 'y'.repeat(100));
  const readWith = async (...inUse: string[]) => {
    const read: FileReadAgain[] = [];
    const options = { home, after: null, memoryCounts: true, inUse };
    const end = await readAgain(
      options,
      (file) => read.push(file),
      async () => {},
    );
    return { badIn: read.flatMap((file) => file.badIn), bytes: end.bytes, places: end.places.length };
  };
  // 5 letters 20 times, three files, in the home alone.
  expect(await readWith()).toEqual({ badIn: [], bytes: 300, places: 0 });
  expect(await readWith(place)).toEqual({ badIn: ['p1'], bytes: 600, places: 1 });
});

test('it goes on behind the file that was read last, counted from there', async () => {
  const { read } = await again(arrivals[1]);
  expect(read.map(({ arrival, doneFiles, doneBytes }) => [arrival, doneFiles, doneBytes])).toEqual([
    [arrivals[2], 3, 600],
  ]);
});

test('a second place that goes away in the middle holds no bad copy, and was not read', async () => {
  const { read, end } = await again(null, () => rm(place, { recursive: true, force: true }));
  expect(read.flatMap(({ badIn }) => badIn)).toEqual([]);
  expect(end.places).toMatchObject([{ place: 'p1', wasRead: false, journalIsBad: false }]);
});
