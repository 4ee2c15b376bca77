import { randomUUID } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import { mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Finding } from '../../facts/index.ts';
import { type Keep, openKeep } from '../keep.ts';
import { fromStart } from '../testing/simulated-home.ts';
import { verifyOriginals } from '../verify.ts';
import { rescueFindings } from './rescue.ts';
import { openSecondPlaces, type SecondPlaces, type SecondPlacesOptions } from './second-places.ts';
import { verifyCopies } from './verify-copies.ts';

let root: string;
let keep: Keep;
let said: Finding[];
/** What is said of a place on the home's own device, as nearly all are here. */
let saidBeside: Finding[];
/** What was told of originals. */
let originals: string[];
let memoryCounts: boolean;
const opened: SecondPlaces[] = [];

function openHome(): Promise<Keep> {
  return openKeep({
    home: join(root, 'home'),
    inspect: async () => ({ kind: 'whole' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
}

async function openPlaces(...folders: string[]): Promise<SecondPlaces> {
  const say = (finding: Finding): void =>
    void (finding.code === 'copy.same-device' ? saidBeside : said).push(finding);
  const times = { retryMs: 20, lookEveryMs: 20 };
  const original: SecondPlacesOptions['original'] = (file, trouble) =>
    void originals.push(`${file.name} ${trouble}`);
  const home = join(root, 'home');
  const options = { home, folders, memoryCounts, keep, newId: randomUUID, say, original, ...times };
  const places = openSecondPlaces(options);
  opened.push(places);
  return places;
}

async function upload(name: string, text = name): Promise<string> {
  const arrival = await keep.folderOf('cam1').open(`/${name}`, fromStart);
  await arrival.write(new TextEncoder().encode(text));
  await arrival.finish('closed');
  return join('jobs/QM-26/originals/cam1', name);
}

const settled = (places: SecondPlaces, patienceMs = 5000): Promise<void> =>
  vi.waitFor(() => expect(places.statuses().every(({ waiting }) => waiting === 0)).toBe(true), patienceMs);

async function copiedRecords(): Promise<number> {
  return (await recordsOf('copied', 'copy-lost')).filter((type) => type === 'copied').length;
}

async function recordsOf(...types: string[]): Promise<string[]> {
  const found: string[] = [];
  for await (const { type } of keep.records()) if (types.includes(type)) found.push(type);
  return found;
}

async function countsOfCopies(): Promise<boolean[]> {
  const found: boolean[] = [];
  for await (const record of keep.records()) if (record.type === 'copied') found.push(record.otherDevice);
  return found;
}

const copyStory = (...story: string[]): Promise<void> =>
  vi.waitFor(async () => expect(await recordsOf('copied', 'copy-lost')).toEqual(story), 30_000);

beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-places-'));
  said = [];
  memoryCounts = false;
  saidBeside = [];
  originals = [];
  keep = await openHome();
});

afterEach(async () => {
  for (const places of opened.splice(0)) await places.close();
  await keep.close();
  await rm(root, { recursive: true, force: true });
});

test('K11.1 what was kept before and what is kept after goes to every place, and the journal follows', async () => {
  const before = await upload('A.DNG');
  await openPlaces(join(root, 'one'), join(root, 'two'));
  const after = await upload('B.DNG');
  await vi.waitFor(async () => expect(await copiedRecords()).toBe(4), 30_000);
  for (const place of ['one', 'two']) {
    expect(await readFile(join(root, place, before), 'utf8')).toBe('A.DNG');
    expect(await readFile(join(root, place, after), 'utf8')).toBe('B.DNG');
  }
  const [journal] = await vi.waitFor(async () => {
    const name = '00000001-000000000001.journal';
    const copy = await readFile(join(root, 'one/journal', name), 'utf8');
    expect(copy).toBe(await readFile(join(root, 'home/journal', name), 'utf8'));
    return [copy];
  }, 30_000);
  expect(journal).toContain('B.DNG');
});

test('K11.1 nothing is copied twice, by a later start neither', async () => {
  await upload('A.DNG');
  await settled(await openPlaces(join(root, 'one')));
  await opened.pop()?.close();
  await keep.close();
  keep = await openHome();
  const again = await openPlaces(join(root, 'one'));
  expect(again.statuses()[0]?.waiting).toBe(0);
  await upload('B.DNG');
  await vi.waitFor(async () => expect(await copiedRecords()).toBe(2), 30_000);
});

test('K11.5 a place that goes away is said, waited for, never made anew, and caught up with', async () => {
  await upload('A.DNG');
  const places = await openPlaces(join(root, 'one'));
  await settled(places);
  await rename(join(root, 'one'), join(root, 'unplugged'));
  const missed = await upload('B.DNG');
  await vi.waitFor(() => expect(said.at(-1)?.code).toBe('copy.away'), 30_000);
  expect(places.statuses()[0]).toMatchObject({ waiting: 1, otherDevice: null });
  expect(existsSync(join(root, 'one'))).toBe(false);
  await rename(join(root, 'unplugged'), join(root, 'one'));
  await settled(places);
  expect(await readFile(join(root, 'one', missed), 'utf8')).toBe('B.DNG');
  expect(places.statuses()[0]?.finding).toBeNull();
  expect(said.at(-1)).toEqual({ code: 'copy.over', args: { folder: join(root, 'one'), what: 'place' } });
});

test('K11.5 a place is known again under another folder by its marker', async () => {
  await upload('A.DNG');
  await settled(await openPlaces(join(root, 'one')));
  await opened.pop()?.close();
  await rename(join(root, 'one'), join(root, 'moved'));
  const places = await openPlaces(join(root, 'moved'));
  await settled(places);
  expect(await copiedRecords()).toBe(1);
  expect([...keep.places().values()]).toEqual([join(root, 'moved')]);
});

test('K11.3 an original that was altered is said, and the others are copied all the same', async () => {
  const altered = await upload('A.DNG');
  await upload('B.DNG');
  await writeFile(join(root, 'home', altered), 'a.dng');
  const places = await openPlaces(join(root, 'one'));
  await vi.waitFor(() => expect(said).toHaveLength(1), 30_000);
  expect(said).toEqual([{ code: 'copy.original-differs', args: { original: altered } }]);
  await vi.waitFor(async () => expect(await copiedRecords()).toBe(1), 30_000);
  const finding = { code: 'copy.originals-bad', args: { original: altered, count: 1 } };
  expect(places.statuses()[0]).toMatchObject({ waiting: 1, finding });
  expect(originals.toSorted()).toEqual(['A.DNG differs', 'B.DNG null']);
});

test('K11.3 an original that is put back is copied at the next try, and nothing is said against it any more', async () => {
  const gone = await upload('A.DNG');
  await rename(join(root, 'home', gone), join(root, 'A.DNG'));
  await openPlaces(join(root, 'one'));
  await vi.waitFor(() => expect(originals).toEqual(['A.DNG missing']), 30_000);
  await opened.pop()?.close();
  await rename(join(root, 'A.DNG'), join(root, 'home', gone));
  const places = await openPlaces(join(root, 'one'));
  await settled(places);
  expect(originals).toEqual(['A.DNG missing', 'A.DNG null']);
  expect(places.statuses()[0]?.finding).toBeNull();
});

test('K11.9 a copy that is gone when the station starts counts no more, and is made anew', async () => {
  const name = await upload('A.DNG');
  await settled(await openPlaces(join(root, 'one')));
  await opened.pop()?.close();
  await rm(join(root, 'one', name));
  await keep.close();
  keep = await openHome();
  await openPlaces(join(root, 'one'));
  await copyStory('copied', 'copy-lost', 'copied');
  expect(await readFile(join(root, 'one', name), 'utf8')).toBe('A.DNG');
  await vi.waitFor(() => expect(said).toHaveLength(1), 30_000);
  expect(said).toEqual([{ code: 'copy.lost', args: { folder: join(root, 'one'), count: 1 } }]);
});

test('K11.9 a copy that is cut while the place was away is set aside when it is back, and made anew', async () => {
  const name = await upload('A.DNG');
  const places = await openPlaces(join(root, 'one'));
  await settled(places);
  await rename(join(root, 'one'), join(root, 'unplugged'));
  // Nothing waits to be copied: that it is gone is noticed all the same, and nothing counts as lost.
  await vi.waitFor(() => expect(places.statuses()[0]?.finding?.code).toBe('copy.away'), 30_000);
  await writeFile(join(root, 'unplugged', name), 'A.D');
  await rename(join(root, 'unplugged'), join(root, 'one'));
  await copyStory('copied', 'copy-lost', 'copied');
  expect(await readFile(join(root, 'one', name), 'utf8')).toBe('A.DNG');
  expect(await readFile(join(root, 'one/set-aside/A.DNG'), 'utf8')).toBe('A.D');
});

test('K11.9 a copy that disappears while the station runs is noticed, and its frame is told of both', async () => {
  const name = await upload('A.DNG');
  const told: string[] = [];
  keep.on(({ type }) => void told.push(type));
  await openPlaces(join(root, 'one'));
  await copyStory('copied');
  await rm(join(root, 'one', name));
  await copyStory('copied', 'copy-lost', 'copied');
  expect(told).toEqual(['copied', 'copy-lost', 'copied']);
});

test('K11.9 of many copies that are gone each is made anew, and new frames do not wait for them', async () => {
  const patience = 60_000;
  // More than are looked for at a time.
  for (let n = 0; n < 210; n++) await upload(`${n}.TXT`);
  await settled(await openPlaces(join(root, 'one')), patience);
  await opened.pop()?.close();
  await rm(join(root, 'one/jobs'), { recursive: true });
  const isLost = new Promise<void>((resolve) =>
    keep.onRecord(({ type }) => type === 'copy-lost' && resolve()),
  );
  await openPlaces(join(root, 'one'));
  await isLost;
  const fresh = await upload('FRESH.DNG');
  await vi.waitFor(async () => expect(await copiedRecords()).toBe(421), patience);
  expect(await readFile(join(root, 'one', fresh), 'utf8')).toBe('FRESH.DNG');
  const order: string[] = [];
  for await (const record of keep.records()) if (record.type === 'copied') order.push(record.arrival);
  const names = order.map((arrival) => keep.keptFile(arrival)?.name);
  expect(names.indexOf('FRESH.DNG')).toBeLessThan(400);
}, 150_000);

test('K11.10 a copy altered in its size is set aside by verifying, and then made anew', async () => {
  const name = await upload('A.DNG');
  await settled(await openPlaces(join(root, 'one')));
  await opened.pop()?.close();
  await writeFile(join(root, 'one', name), 'a.dng');
  const home = join(root, 'home');
  expect(await verifyCopies(home)).toMatchObject([{ findings: [{ code: 'copy.altered' }], setAside: 0 }]);
  expect(await readFile(join(root, 'one', name), 'utf8')).toBe('a.dng');
  const mended = await verifyCopies(home, () => {}, { mend: true });
  expect(mended).toMatchObject([{ findings: [{ code: 'copy.altered' }], setAside: 1 }]);
  expect(await readFile(join(root, 'one/set-aside/A.DNG'), 'utf8')).toBe('a.dng');
  expect(await verifyCopies(home)).toMatchObject([{ findings: [{ code: 'copy.missing' }], setAside: 0 }]);
  await openPlaces(join(root, 'one'));
  await copyStory('copied', 'copy-lost', 'copied');
  expect(await verifyCopies(home)).toMatchObject([{ findings: [], setAside: 0 }]);
});

test('K11.10 the copy of a bad original is told where it is good, and never set aside where it is not', async () => {
  const [kept, cut] = [await upload('A.DNG'), await upload('B.DNG')];
  await settled(await openPlaces(join(root, 'one')));
  await opened.pop()?.close();
  const home = join(root, 'home');
  for (const name of [kept, cut]) await writeFile(join(home, name), 'other');
  await writeFile(join(root, 'one', cut), 'B');
  const { bad } = await verifyOriginals(home);
  const badOriginals = new Set(bad.map(({ original }) => original));
  const copies = await verifyCopies(home, () => {}, { mend: true, badOriginals });
  const sizes = { original: cut, folder: join(root, 'one'), sizeBytes: 1, expectedBytes: 5 };
  expect(copies).toMatchObject([
    { setAside: 0, holds: [kept], findings: [{ code: 'copy.size', args: sizes }] },
  ]);
  expect(await readFile(join(root, 'one', cut), 'utf8')).toBe('B');
  expect(rescueFindings(badOriginals, copies)).toEqual([
    { code: 'copy.holds-original', args: { original: kept, folder: join(root, 'one') } },
    { code: 'copy.none-holds-original', args: { original: cut } },
  ]);
});

test('K11.10 of a place that is given up only the copies of bad originals are read, since one may be the last', async () => {
  const [kept, other] = [await upload('A.DNG'), await upload('B.DNG')];
  await settled(await openPlaces(join(root, 'one')));
  await opened.pop()?.close();
  await writeFile(join(root, 'one', other), 'b.dng');
  const look = (inUse: readonly string[], ...bad: string[]): ReturnType<typeof verifyCopies> =>
    verifyCopies(join(root, 'home'), () => {}, { mend: true, inUse, badOriginals: new Set(bad) });
  expect(await look([])).toMatchObject([
    { isGivenUp: true, wasRead: false, findings: [], holds: [], setAside: 0 },
  ]);
  expect(await look([], kept, other)).toMatchObject([{ isGivenUp: true, findings: [], holds: [kept] }]);
  expect(await readFile(join(root, 'one', other), 'utf8')).toBe('b.dng');
  expect(await look([join(root, 'one')])).toMatchObject([
    { isGivenUp: false, findings: [{ code: 'copy.altered' }], setAside: 1 },
  ]);
});

test('K11.7 a journal whose copy is altered is found by verifying, set aside, and made anew without a new record', async () => {
  await upload('A.DNG');
  const places = await openPlaces(join(root, 'one'));
  await settled(places);
  const home = join(root, 'home');
  const segment = '00000001-000000000001.journal';
  const copy = join(root, 'one/journal', segment);
  const isCopied = (): Promise<void> =>
    vi.waitFor(
      async () =>
        expect(await readFile(copy, 'utf8')).toBe(await readFile(join(home, 'journal', segment), 'utf8')),
      30_000,
    );
  // The round of its own that follows a record is over: only a look can notice what comes now.
  await sleep(1500);
  await isCopied();
  const text = await readFile(copy, 'utf8');
  await writeFile(copy, `${text.slice(0, 30)}#${text.slice(31)}`);
  const altered = { code: 'copy.journal-altered', args: { folder: join(root, 'one'), name: segment } };
  expect(await verifyCopies(home)).toMatchObject([{ findings: [altered], setAside: 0 }]);
  expect(await verifyCopies(home, () => {}, { mend: true })).toMatchObject([{ setAside: 1 }]);
  await isCopied();
  expect(await verifyCopies(home)).toMatchObject([{ findings: [] }]);
  expect(existsSync(join(root, 'one/set-aside', segment))).toBe(true);
});

test('K10.2 originals that no second place has are counted, and copies of what was replaced are told apart', async () => {
  await upload('A.DNG');
  expect(await verifyOriginals(join(root, 'home'))).toMatchObject({ inOnePlace: null });
  const places = await openPlaces(join(root, 'one'));
  await settled(places);
  expect(await verifyOriginals(join(root, 'home'))).toMatchObject({ inOnePlace: 0 });
  expect(await verifyCopies(join(root, 'home'))).toMatchObject([{ files: 1, ofReplaced: 0 }]);
  await opened.pop()?.close();
  await upload('B.DNG');
  expect(await verifyOriginals(join(root, 'home'))).toMatchObject({ inOnePlace: 1, findings: [] });
});

test('K11.2 a place on the home’s own device is said, once each time it is there', async () => {
  await upload('A.DNG');
  const folder = join(root, 'one');
  const places = await openPlaces(folder);
  await settled(places);
  await upload('B.DNG');
  await settled(places);
  const same = { code: 'copy.same-device', args: { folder } };
  expect(saidBeside).toEqual([same]);
  await rename(folder, join(root, 'unplugged'));
  await upload('C.DNG');
  await vi.waitFor(() => expect(said.at(-1)?.code).toBe('copy.away'), 30_000);
  await rename(join(root, 'unplugged'), folder);
  await settled(places);
  expect(saidBeside).toEqual([same, same]);
});

test('K11.2 only a place on another device counts, and in memory only where that is asked for', async ({
  skip,
}) => {
  const shm = '/dev/shm';
  if (!existsSync(shm) || statSync(shm).dev === statSync(root).dev) skip('no second device here');
  const elsewhere = await mkdtemp(join(shm, 'setside-place-'));
  try {
    await upload('A.DNG');
    const places = await openPlaces(elsewhere, join(root, 'beside'));
    await settled(places);
    // tmpfs(5): its contents "are lost" when it is unmounted, and with the power.
    expect(places.statuses().map(({ otherDevice }) => otherDevice)).toEqual([false, false]);
    expect(said).toEqual([{ code: 'copy.in-memory', args: { folder: elsewhere } }]);
    expect(await countsOfCopies()).toEqual([false, false]);
    await places.close();
    await upload('B.DNG');
    memoryCounts = true;
    const asked = await openPlaces(elsewhere, join(root, 'beside'));
    await settled(asked);
    expect(asked.statuses().map(({ otherDevice }) => otherDevice)).toEqual([true, false]);
    expect((await countsOfCopies()).slice(2).sort()).toEqual([false, true]);
  } finally {
    for (const places of opened.splice(0)) await places.close();
    await rm(elsewhere, { recursive: true, force: true });
  }
});
