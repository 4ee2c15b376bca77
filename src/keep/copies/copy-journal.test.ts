import { appendFile, mkdir, mkdtemp, readdir, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { encodeLine } from '../core/journal-line.ts';
import { segmentFileName } from '../core/segment-name.ts';
import { copyJournal } from './copy-journal.ts';
import type { PlaceAddress } from './copy-shapes.ts';
import { foundPlace } from './place-marker.ts';

let root: string;
let address: PlaceAddress;
const first = segmentFileName({ ordinal: 1, firstSeq: 1 });
const second = segmentFileName({ ordinal: 2, firstSeq: 9 });
const there = (name: string): Promise<string> => readFile(join(address.folder, 'journal', name), 'utf8');

beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-copy-'));
  address = { home: join(root, 'home'), folder: join(root, 'second'), place: 'p1' };
  await mkdir(join(address.home, 'journal'), { recursive: true });
  await writeFile(join(address.home, 'journal', first), 'one\n');
  foundPlace(address);
});

afterEach(() => rm(root, { recursive: true, force: true }));

test('K11.7 segments are carried on from where the copy ends, and new ones taken up', async () => {
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe('one\n');
  await appendFile(join(address.home, 'journal', first), `two\n${'long '.repeat(40_000)}\n`);
  await writeFile(join(address.home, 'journal', second), 'three\n');
  await writeFile(join(address.home, 'journal', 'notes.txt'), 'no segment');
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe(await readFile(join(address.home, 'journal', first), 'utf8'));
  expect(await there(second)).toBe('three\n');
  expect(await readdir(join(address.folder, 'journal'))).toHaveLength(2);
});

test('K11.7 a copy that is longer or other than its source is set aside, not written over', async () => {
  copyJournal(address);
  await writeFile(join(address.folder, 'journal', first), 'ONE\n');
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  await appendFile(join(address.folder, 'journal', first), 'a torn tail that was lost at the source');
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe('one\n');
  expect((await readdir(join(address.folder, 'set-aside'))).sort()).toEqual([`2-${first}`, first].sort());
});

test('a source that became shorter is a trouble, not a crash', async () => {
  await rm(join(address.home, 'journal'), { recursive: true });
  expect(copyJournal(address)).toMatchObject({ kind: 'place' });
  await mkdir(join(address.home, 'journal'));
  await writeFile(join(address.home, 'journal', first), 'one\n');
  copyJournal(address);
  await truncate(join(address.home, 'journal', first), 0);
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
});

/** So many records of a start, as the journal writes them. */
function records(fromSeq: number, count: number): Buffer {
  const lines = Array.from({ length: count }, (_, at) =>
    encodeLine({
      v: 1,
      seq: fromSeq + at,
      group: fromSeq + at,
      atMs: 0,
      type: 'opened',
      bootId: null,
    }),
  );
  return Buffer.concat(lines);
}

test('K11.7 of a segment that is damaged at its source the copy stays, and is carried on', async () => {
  const source = join(address.home, 'journal', first);
  const sound = records(1, 3);
  await writeFile(source, sound);
  copyJournal(address);
  const damaged = Buffer.from(sound);
  damaged[damaged.length - 9] = (damaged[damaged.length - 9] ?? 0) ^ 1;
  await writeFile(source, damaged);
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe(sound.toString());
  await appendFile(source, records(4, 2));
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe(records(1, 5).toString());
  await writeFile(source, sound.subarray(0, 20));
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe(records(1, 5).toString());
  expect(await readdir(address.folder)).not.toContain('set-aside');
  // Of two that are damaged the home's is no worse.
  await writeFile(join(address.folder, 'journal', first), damaged.subarray(4));
  expect(copyJournal(address)).toEqual({ kind: 'copied' });
  expect(await there(first)).toBe(sound.subarray(0, 20).toString());
});
