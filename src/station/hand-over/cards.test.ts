import { randomUUID } from 'node:crypto';
import { mkdir, mkdtemp, readdir, readFile, realpath, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { CardCheck } from '../../contract/index.ts';
import { cardMark, type Keep, openKeep, readCard } from '../../keep/index.ts';
import { cardToTell } from './card-told.ts';
import { Cards } from './cards.ts';

let top = '';
let card = '';
let keep: Keep;
let cards: Cards;
let told: CardCheck[];
beforeEach(async () => {
  top = await realpath(await mkdtemp(join(tmpdir(), 'setside-cards-')));
  card = join(top, 'card');
  const home = join(top, 'home');
  await mkdir(join(card, 'DCIM/100QMST'), { recursive: true });
  keep = await openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
  told = [];
  cards = new Cards({
    home,
    copies: [],
    watches: [],
    cards: [card],
    memoryCounts: true,
    keep,
    // The test has no card: its folder is taken to lie on a device of its own.
    read: (wish, onProgress) => readCard({ ...wish, cardDevice: '-1' }, onProgress),
    folderOf: (camera) => (camera === 'cam1' ? keep.folderOf(camera) : null),
    prove: async () => 'whole',
    report: () => {},
    tell: (check) => told.push(check),
    trouble: (thrown) => {
      throw thrown;
    },
    newId: randomUUID,
    now: Date.now,
  });
});
afterEach(async () => {
  await cards.close();
  await keep.close();
  await rm(top, { recursive: true, force: true });
});

const newest = (): CardCheck | undefined => told.at(-1);

async function checked(): Promise<CardCheck> {
  await cards.begin(card);
  await expect.poll(() => newest()?.state).toBe('done');
  return newest() ?? expect.unreachable();
}

test('what is missing is named, taken in byte for byte, and the card stays as it was', async () => {
  const path = join(card, 'DCIM/100QMST/QMST0001.JPG');
  await writeFile(path, 'one');
  await writeFile(join(card, 'DCIM/100QMST/QMST0002.JPG'), 'two');
  const before = await checked();
  expect(before).toMatchObject({ mayBeWiped: false, counts: { missing: 2, safe: 0 }, journalled: true });
  expect(before.notSafe.map(({ path: name }) => name)).toEqual([
    'DCIM/100QMST/QMST0001.JPG',
    'DCIM/100QMST/QMST0002.JPG',
  ]);
  await cards.takeIn('cam1');
  await expect.poll(() => newest()?.takingIn?.state).toBe('done');
  expect(newest()?.takingIn).toMatchObject({ taken: 2, files: 2, left: [] });
  const kept = await readdir(join(top, 'home/jobs/QM-26/originals/cam1'), { recursive: true });
  const original = kept.find((name) => name.endsWith('QMST0001.JPG')) ?? '';
  expect(await readFile(join(top, 'home/jobs/QM-26/originals/cam1', original), 'utf8')).toBe('one');
  expect(await readFile(path, 'utf8')).toBe('one');
  // Here now, and on one disk only.
  expect((await checked()).counts).toEqual({ safe: 0, once: 2, missing: 0, unread: 0 });
  expect(keep.cardChecks().map(({ missing, once, isSafe }) => [missing, once, isSafe])).toEqual([
    [2, 0, false],
    [0, 2, false],
  ]);
  expect(keep.cardChecks().at(-1)?.lasts).toEqual([{ camera: 'cam1', prefix: 'ST', counter: 2 }]);
});

test('one card at a time, nothing is taken in without a check, nor for a camera that is none', async () => {
  await expect(cards.takeIn('cam1')).rejects.toMatchObject({ code: 'no-card-check' });
  await expect(cards.begin(top)).rejects.toMatchObject({ code: 'card-not-allowed' });
  await writeFile(join(card, 'A.JPG'), 'one');
  const first = cards.begin(card);
  await first;
  if (newest()?.state === 'checking')
    await expect(cards.begin(card)).rejects.toMatchObject({ code: 'card-busy' });
  await expect.poll(() => newest()?.state).toBe('done');
  await expect(cards.takeIn('cam9')).rejects.toMatchObject({ code: 'no-camera' });
});

test('a card that goes away while its files are taken in is told, and what came stays', async () => {
  await writeFile(join(card, 'A.JPG'), 'one');
  await checked();
  await rm(card, { recursive: true });
  await mkdir(card);
  await cards.takeIn('cam1');
  await expect.poll(() => newest()?.takingIn?.state).toBe('card-gone');
  expect(newest()?.takingIn?.taken).toBe(0);
});

test('what was proved of one card is not said of the next in the same reader, nor of one that was shot on', async () => {
  const path = join(card, 'DCIM/100QMST/QMST0001.JPG');
  await writeFile(path, 'one');
  await checked();
  expect((await cards.desk()).check?.findings).toEqual([]);
  await writeFile(join(card, 'DCIM/100QMST/QMST0002.JPG'), 'two');
  const changed = (await cards.desk()).check;
  expect(changed).toMatchObject({ mayBeWiped: false, findings: [{ code: 'card.changed' }] });
  // Putting it right again proves nothing: it is checked anew.
  await rm(join(card, 'DCIM/100QMST/QMST0002.JPG'));
  expect((await cards.desk()).check?.findings).toHaveLength(1);
  expect((await checked()).findings).toEqual([]);
  await rm(card, { recursive: true });
  expect((await cards.desk()).check).toMatchObject({ findings: [{ code: 'card.away' }] });
  await mkdir(card);
});

test('what the command found is told and journalled, and holds for that card only', async () => {
  const path = join(card, 'A.JPG');
  await writeFile(path, 'one');
  const mark = await cardMark(card);
  const report = { folder: card, files: [], bytes: 3, passedOver: [], findings: [], safe: false };
  const found = { ...cardToTell(report, 1_000, 2_000, mark), files: 1, mayBeWiped: true };
  const outcome = { ...found, counts: { safe: 1, once: 0, missing: 0, unread: 0 } };
  expect(await cards.told(outcome)).toMatchObject({
    state: 'done',
    mayBeWiped: true,
    byCommand: true,
    journalled: true,
    doneFiles: 1,
  });
  expect(newest()?.mayBeWiped).toBe(true);
  expect(keep.cardChecks().at(-1)).toMatchObject({ folder: card, safe: 1, isSafe: true });
  // Which files are missing was not told: they are taken in after a check here.
  await expect(cards.takeIn('cam1')).rejects.toMatchObject({ code: 'no-card-check' });
  await writeFile(join(card, 'B.JPG'), 'two');
  expect((await cards.desk()).check).toMatchObject({
    mayBeWiped: false,
    findings: [{ code: 'card.changed' }],
  });
  for (const other of [mark, null])
    expect(await cards.told({ ...outcome, mark: other })).toMatchObject({ mayBeWiped: false });
});

test('a file that is exchanged for another of its size is another card', async () => {
  const path = join(card, 'A.JPG');
  await writeFile(path, 'one');
  const { mtime } = await stat(path);
  await checked();
  await writeFile(path, 'two');
  await utimes(path, mtime, new Date(mtime.getTime() + 2_000));
  expect((await cards.desk()).check?.findings).toMatchObject([{ code: 'card.changed' }]);
});
