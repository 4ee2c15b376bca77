import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type JournalRecord, type KeptFile, type Verified, writeVerified } from '../keep/index.ts';
import { BadCopies } from './bad-copies.ts';
import { BadOriginals } from './bad-originals.ts';
import { heedVerified } from './heed-verified.ts';

let home: string;
let end: (() => Promise<void>) | null;
beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-verified-'));
  end = null;
});
afterEach(async () => {
  await end?.();
  await rm(home, { recursive: true, force: true });
});

const kept = (arrival: string): KeptFile => ({
  ...{ arrival, frame: arrival.replace('a', 'f'), job: 'j', camera: 'c', path: '/n', name: 'n' },
  ...{ original: 'jobs/j/originals/c/n', sizeBytes: 1, sha256: '0'.repeat(64), wholeness: 'whole' },
  ...{ expectedBytes: null, firstByteMs: null, lastByteMs: null },
});
const copied = (arrival: string, seq: number): JournalRecord => ({
  ...{ v: 1, seq, group: seq, atMs: 1, type: 'copied' },
  ...{ arrival, place: 'p1', readBack: 'direct', otherDevice: true },
});
const found = (change: Partial<Verified>): Verified => ({ beganMs: 1, originals: [], places: [], ...change });
const badIn = (seq: number, bad: string[]): Partial<Verified> => ({
  places: [{ place: 'p1', seq, bad, journalIsBad: false }],
});

async function heed(records: readonly JournalRecord[] = []): Promise<{
  readonly originals: BadOriginals;
  readonly copies: BadCopies;
  readonly told: (string | null)[];
}> {
  const originals = new BadOriginals();
  const copies = new BadCopies();
  const keep = {
    keptFile: kept,
    on: () => () => {},
    records: async function* (afterSeq = 0) {
      yield* records.filter(({ seq }) => seq > afterSeq);
    },
  };
  const told: (string | null)[] = [];
  const heeded = (): void => void told.push(originals.of('a1'));
  end = await heedVerified({ home, keep, badOriginals: originals, badCopies: copies, heeded, everyMs: 20 });
  return { originals, copies, told };
}

test('what was left before the start is known when it settles', async () => {
  await writeVerified(
    home,
    found({ originals: [{ arrival: 'a1', trouble: 'differs' }], ...badIn(5, ['a2']) }),
  );
  const { originals, copies } = await heed();
  expect([originals.of('a1'), copies.has('a2', 'p1')]).toEqual(['differs', true]);
});

test('what is left meanwhile is heeded, and what the next reading finds good is so again', async () => {
  const { originals, told } = await heed();
  await writeVerified(home, found({ originals: [{ arrival: 'a1', trouble: 'missing' }] }));
  await vi.waitFor(() => expect(originals.of('a1')).toBe('missing'), 10_000);
  await writeVerified(home, found({ beganMs: 2 }));
  await vi.waitFor(() => expect(originals.of('a1')).toBeNull(), 10_000);
  // Second places try again what waits: they are told each time, after it is taken over.
  await vi.waitFor(() => expect(told).toEqual(['missing', null]), 10_000);
});

test('a copy that was made after the reading is another one, one made before is the one that was read', async () => {
  await writeVerified(home, found(badIn(5, ['a1', 'a2'])));
  const { copies } = await heed([copied('a1', 5), copied('a2', 6)]);
  expect([copies.has('a1', 'p1'), copies.has('a2', 'p1')]).toEqual([true, false]);
});
