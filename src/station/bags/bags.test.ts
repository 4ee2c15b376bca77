import { mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { BagWork } from '../../contract/index.ts';
import type { BagNews, BagTask } from './bag-messages.ts';
import { Bags } from './bags.ts';

/** A packing that does what the test says. */
interface FakePacking {
  readonly task: BagTask;
  readonly paces: boolean[];
  stopped: boolean;
  readonly tell: (news: BagNews) => void;
}

let top = '';
let home = '';
let folder = '';
let nowMs = 0;
let busy = false;
let packings: FakePacking[];
let told: BagWork[];
let open: Bags[];
beforeEach(async () => {
  top = await realpath(await mkdtemp(join(tmpdir(), 'setside-bags-')));
  home = join(top, 'home');
  folder = join(top, 'archive/QM-26');
  await mkdir(home);
  await mkdir(join(top, 'archive'));
  nowMs = 1_000_000;
  busy = false;
  packings = [];
  told = [];
  open = [];
});
afterEach(async () => {
  for (const each of open) await each.close();
  await rm(top, { recursive: true, force: true });
});

async function opened(): Promise<Bags> {
  const bags = await Bags.open({
    home,
    copies: [],
    watches: [],
    cards: [],
    destinations: async () => [join(top, 'archive')],
    hasJob: (code) => code === 'QM-26',
    start: (_home, task, paused, tell) => {
      const packing: FakePacking = { task, paces: [paused], stopped: false, tell };
      packings.push(packing);
      return {
        pace: (wanted) => packing.paces.push(wanted),
        stop: () => {
          packing.stopped = true;
        },
      };
    },
    isBusy: () => busy,
    tell: (work) => told.push(work),
    trouble: (thrown) => {
      throw thrown;
    },
    newId: () => `b-${packings.length}`,
    now: () => nowMs,
    everyMs: 5,
  });
  open.push(bags);
  return bags;
}

const newest = (): BagWork => told.at(-1) ?? expect.unreachable();
const packing = (): FakePacking => packings.at(-1) ?? expect.unreachable();
const far = (phase: 'writing' | 'reading', doneBytes: number): BagNews => ({
  kind: 'progress',
  progress: { phase, doneBytes, bytes: 1_000, path: 'data/a' },
});
const end = { folder: '', version: '1.0', valid: true, files: 3, bytes: 1_000, findings: [] };

test('a bag is written, read again, and its figure told; the time to go counts both', async () => {
  const bags = await opened();
  await bags.make('QM-26', folder);
  expect(packing().task).toEqual({ kind: 'make', job: 'QM-26', folder });
  packing().tell(far('writing', 1));
  nowMs += 10_000;
  packing().tell(far('writing', 500));
  // 500 bytes took 10 s: 500 to write and 1000 to read are 30 s at that speed (our own arithmetic).
  expect(newest()).toMatchObject({ phase: 'writing', doneBytes: 500, bytes: 1_000, toGoMs: 30_000 });
  packing().tell(far('reading', 1));
  nowMs += 2_000;
  packing().tell(far('reading', 250));
  expect(newest()).toMatchObject({ phase: 'reading', toGoMs: 6_000 });
  packing().tell({ kind: 'done', end: { ...end, originals: 2, unfinished: 1, leftOut: [] } });
  // RFC 8493, section 2.2.2: octets, a full stop, streams.
  expect(newest()).toMatchObject({
    state: 'done',
    outcome: { valid: true, payloadOxum: '1000.3', originals: 2, unfinished: 1, more: 0 },
  });
});

test('one at a time, of a job that is there, in an allowed folder', async () => {
  const bags = await opened();
  await expect(bags.make('QM-99', folder)).rejects.toMatchObject({ code: 'no-job' });
  await expect(bags.make('QM-26', join(home, 'bag'))).rejects.toMatchObject({ code: 'bag-not-allowed' });
  await expect(bags.check(top)).rejects.toMatchObject({ code: 'bag-not-allowed' });
  await bags.check(folder);
  await expect(bags.check(folder)).rejects.toMatchObject({ code: 'bag-busy' });
  await expect(bags.make('QM-26', folder)).rejects.toMatchObject({ code: 'bag-busy' });
  expect((await bags.stop())?.state).toBe('stopped');
  expect(packing().stopped).toBe(true);
  // Whatever it still says is not heard.
  packing().tell({ kind: 'done', end: { ...end, originals: null, unfinished: null, leftOut: [] } });
  expect(newest().state).toBe('stopped');
  await bags.make('QM-26', folder);
  expect(packings).toHaveLength(2);
});

test('it rests while others are at work, goes on by itself, and the rest counts for no time', async () => {
  const bags = await opened();
  await bags.make('QM-26', folder);
  packing().tell(far('reading', 1));
  busy = true;
  await expect.poll(() => packing().paces.at(-1)).toBe(true);
  expect(newest()).toMatchObject({ waiting: true, toGoMs: null });
  nowMs += 100_000;
  busy = false;
  await expect.poll(() => packing().paces.at(-1)).toBe(false);
  expect(newest().waiting).toBe(false);
  nowMs += 10_000;
  packing().tell(far('reading', 500));
  expect(newest().toGoMs).toBe(10_000);
});

test('after an end in the middle the next station goes on with what was begun, under its own name', async () => {
  const first = await opened();
  const { id } = await first.make('QM-26', folder);
  await mkdir(folder);
  await writeFile(join(folder, 'unfinished.txt'), 'QM-26');
  packing().tell(far('writing', 1));
  await first.close();
  expect(packing().stopped).toBe(true);
  const next = await opened();
  expect(packings).toHaveLength(2);
  expect(packing().task).toEqual({ kind: 'make', job: 'QM-26', folder });
  expect((await next.desk()).work).toMatchObject({ id, state: 'running' });
  packing().tell({ kind: 'done', end: { ...end, originals: 2, unfinished: 0, leftOut: [] } });
  await next.close();
  // What is over stays to be read, and is not done again.
  expect((await (await opened()).desk()).work).toMatchObject({ state: 'done', outcome: { valid: true } });
  expect(packings).toHaveLength(2);
});

test('one that rested before anything was written begins with the next station, where its place is still there', async () => {
  busy = true;
  const first = await opened();
  await first.make('QM-26', folder);
  await first.close();
  busy = false;
  const next = await opened();
  expect(packings).toHaveLength(2);
  await next.stop();
  await next.make('QM-26', folder);
  await next.close();
  await rm(join(top, 'archive'), { recursive: true });
  expect((await (await opened()).desk()).work?.failure?.code).toBe('bag.away');
});

test('where the disk is away nothing is put into the folder that it left, and that is said', async () => {
  const first = await opened();
  await first.make('QM-26', folder);
  packing().tell(far('writing', 1));
  await first.close();
  const next = await opened();
  expect(packings).toHaveLength(1);
  expect((await next.desk()).work).toMatchObject({ state: 'failed', failure: { code: 'bag.away' } });
});

test('why it broke off is told with what to do; a note that cannot be read is none', async () => {
  const bags = await opened();
  await bags.make('QM-26', folder);
  packing().tell({ kind: 'failed', why: 'there is no room', cure: 'Make some.' });
  expect(newest()).toMatchObject({
    state: 'failed',
    failure: { code: 'bag.failed', args: { folder, why: 'there is no room', cure: 'Make some.' } },
  });
  await bags.close();
  expect(JSON.parse(await readFile(join(home, 'bag.json'), 'utf8'))).toMatchObject({ state: 'failed' });
  await writeFile(join(home, 'bag.json'), '{"state":');
  expect((await (await opened()).desk()).work).toBeNull();
});
