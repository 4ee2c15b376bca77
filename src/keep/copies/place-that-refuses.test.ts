import { randomUUID } from 'node:crypto';
import { mkdtemp, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Finding } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { type Keep, openKeep } from '../keep.ts';
import { fromStart } from '../testing/simulated-home.ts';
import type { Copier, CopyOutcome, FileToCopy, JournalOutcome } from './copy-shapes.ts';
import { inlineCopier } from './inline-copier.ts';
import { openSecondPlaces, type SecondPlaces } from './second-places.ts';

/** Long against a try, short against the wait below. */
const retryMs = 100;
const watchedMs = 600;

let root: string;
let folder: string;
let keep: Keep;
let said: string[];
let tried: string[];
let journalTries: number;
let places: SecondPlaces | null;
/** What becomes of a file or the journal instead of being copied; null where it is copied. */
let refuseFile: (file: FileToCopy) => CopyOutcome | null;
let refuseJournal: () => JournalOutcome | null;

beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-refuses-'));
  folder = join(root, 'one');
  said = [];
  tried = [];
  journalTries = 0;
  places = null;
  refuseFile = () => null;
  refuseJournal = () => null;
  keep = await openKeep({
    ...{
      home: join(root, 'home'),
      inspect: async () => ({ kind: 'whole' }),
      newId: randomUUID,
      now: Date.now,
    },
    ...{ jobOf: () => 'QM-26', diskFloorBytes: 0, hashWorkers: 0 },
  });
});

afterEach(async () => {
  await places?.close();
  await keep.close();
  await rm(root, { recursive: true, force: true });
});

function open(hear: (finding: Finding) => void = () => {}): SecondPlaces {
  places = openSecondPlaces({
    ...{ home: join(root, 'home'), folders: [folder], keep, newId: randomUUID, retryMs, lookEveryMs: 60_000 },
    say: (finding: Finding) => {
      if (finding.code === 'copy.same-device') return;
      said.push(finding.code);
      hear(finding);
    },
    openCopier: (way): Copier => {
      const real = inlineCopier(way);
      return {
        ...real,
        copy: async (place, file) => {
          tried.push(keep.keptFile(file.arrival)?.name ?? '');
          return refuseFile(file) ?? real.copy(place, file);
        },
        copyJournal: async (place) => {
          journalTries += 1;
          return refuseJournal() ?? real.copyJournal(place);
        },
      };
    },
  });
  return places;
}

async function upload(name: string, text = name): Promise<string> {
  const arrival = await keep.folderOf('cam1').open(`/${name}`, fromStart);
  await arrival.write(new TextEncoder().encode(text));
  await arrival.finish('closed');
  return join(root, 'home/jobs/QM-26/originals/cam1', name);
}

/** No more tries than rests fit in between, and one at each end: measured, so a slow machine changes nothing. */
async function triesAllowed(): Promise<number> {
  const beganMs = performance.now();
  await sleep(watchedMs);
  return (performance.now() - beganMs) / retryMs + 2;
}

const finding = (): string | null => places?.statuses()[0]?.finding?.code ?? null;

test.each(['full', 'failed'] as const)(
  'K11.5 a place that is there and refuses (%s) rests between tries, is said once, and is told until it takes a copy',
  async (trouble) => {
    await upload('A.DNG');
    refuseFile = ({ arrival }) => ({ kind: 'place', trouble, why: `cannot write arriving/${arrival}` });
    open();
    await vi.waitFor(() => expect(tried).not.toEqual([]), 10_000);
    const allowed = await triesAllowed();
    expect(tried.length).toBeLessThanOrEqual(allowed);
    expect(tried.length).toBeGreaterThan(1);
    expect(said).toEqual([`copy.${trouble}`]);
    // Another file is refused in other words of the system: no news.
    await upload('B.DNG', 'B');
    await vi.waitFor(() => expect(tried).toContain('B.DNG'), 10_000);
    expect(finding()).toBe(`copy.${trouble}`);
    expect(said).toEqual([`copy.${trouble}`]);
    refuseFile = () => null;
    await vi.waitFor(() => expect(places?.statuses()[0]?.waiting).toBe(0), 10_000);
    expect(finding()).toBeNull();
    // The log's last word of the place is not that it is full.
    expect(said).toEqual([`copy.${trouble}`, 'copy.over']);
  },
);

test('K11.5 a place that is full says how much stays free there; that nothing waits for it any more is no word of room', async () => {
  const original = await upload('A.DNG');
  const told: string[] = [];
  refuseFile = () => ({ kind: 'place', trouble: 'full', why: 'no room' });
  open((finding) => void told.push(sentence(finding)));
  await vi.waitFor(() => expect(told).toHaveLength(1), 10_000);
  // 64 MiB, as sizes are said: 67.1 MB.
  expect(told[0]).toBe(
    `The second place ${folder} is full: a copy there must leave 67.1 MB free, for the journal. Make room there, or connect a larger one.`,
  );
  await rename(original, join(root, 'elsewhere'));
  refuseFile = () => ({ kind: 'original-missing' });
  await vi.waitFor(() => expect(told.at(-1)).toMatch(/has nothing left to take/), 10_000);
});

test('K11.5 a file that is too large for the room left holds back no smaller one, nor the journal', async () => {
  await upload('SMALL.JPG', 'small');
  await upload('LARGE.DNG', 'larger than the room');
  refuseFile = ({ sizeBytes }) =>
    sizeBytes > 10 ? { kind: 'place', trouble: 'full', why: 'no room' } : null;
  open();
  await vi.waitFor(() => expect(places?.statuses()[0]?.waiting).toBe(1), 10_000);
  await vi.waitFor(() => expect(journalTries).toBeGreaterThan(0), 10_000);
  expect(finding()).toBe('copy.full');
  await upload('LATER.JPG', 'later');
  await vi.waitFor(() => expect(tried).toContain('LATER.JPG'), 10_000);
  expect(finding()).toBe('copy.full');
  expect(said).toEqual(['copy.full']);
});

test('K11.3 an original that cannot be opened holds back no other, and is not laid on the place', async () => {
  await upload('OLD.DNG');
  const linked = await upload('LINK.DNG');
  await rename(linked, join(root, 'elsewhere'));
  await symlink(join(root, 'elsewhere'), linked);
  open();
  await vi.waitFor(() => expect(tried).toContain('OLD.DNG'), 10_000);
  await vi.waitFor(() => expect(places?.statuses()[0]?.waiting).toBe(1), 10_000);
  expect(said).toEqual(['copy.original-unreadable']);
  expect(finding()).toBe('copy.originals-bad');
});

test('K11.7 a journal whose copy reads back wrong is told until it reads back right', async () => {
  refuseJournal = () => ({ kind: 'differs' });
  open();
  await vi.waitFor(() => expect(journalTries).toBeGreaterThan(0), 10_000);
  const allowed = await triesAllowed();
  expect(journalTries).toBeLessThanOrEqual(allowed);
  expect(finding()).toBe('copy.journal-differs');
  expect(said).toEqual(['copy.journal-differs']);
  refuseJournal = () => null;
  await vi.waitFor(() => expect(finding()).toBeNull(), 10_000);
});

test('K11.3 an original that somebody else read, and found as received, is tried again at once', async () => {
  const altered = await upload('A.DNG');
  await writeFile(altered, 'a.dng');
  open();
  await vi.waitFor(() => expect(finding()).toBe('copy.originals-bad'), 10_000);
  places?.originalsRead(() => true);
  expect(finding()).toBe('copy.originals-bad');
  await writeFile(altered, 'A.DNG');
  places?.originalsRead(() => false);
  await vi.waitFor(() => expect(places?.statuses()[0]?.waiting).toBe(0), 10_000);
  expect(finding()).toBeNull();
});
