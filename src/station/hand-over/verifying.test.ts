import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Verification } from '../../contract/index.ts';
import {
  type FileReadAgain,
  type ReadAgainEnd,
  type ReadAgainOptions,
  type ReadingPace,
  readVerificationNote,
  readVerified,
  writeVerificationNote,
} from '../../keep/index.ts';
import { Verifying } from './verifying.ts';

/** A reading that does what the test says. */
interface FakeReading {
  readonly options: ReadAgainOptions;
  paces: ReadingPace[];
  stopped: boolean;
  file: (arrival: string, doneFiles: number, bad?: Partial<FileReadAgain>) => void;
  end: (end?: Partial<ReadAgainEnd>) => void;
}

const dayMs = 86_400_000;
let home = '';
let nowMs = 0;
let busy = false;
let readings: FakeReading[] = [];
let told: Verification[] = [];
let open: Verifying[] = [];
beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-verifying-'));
  nowMs = 1_000 * dayMs;
  busy = false;
  readings = [];
  told = [];
  open = [];
});
afterEach(async () => {
  for (const each of open) await each.close();
  await rm(home, { recursive: true, force: true });
});

async function opened(everyDays = 30): Promise<Verifying> {
  const verifying = await Verifying.open({
    home,
    everyDays,
    memoryCounts: false,
    copies: ['/mnt/two'],
    read: (options, pace, onFile) => {
      let settle = (_end: ReadAgainEnd): void => {};
      const done = new Promise<ReadAgainEnd>((resolve) => {
        settle = resolve;
      });
      const reading: FakeReading = {
        options,
        paces: [pace],
        stopped: false,
        file: (arrival, doneFiles, bad = {}) =>
          onFile({
            ...{ arrival, seq: 50, bytes: 10, trouble: null, badIn: [], doneFiles, files: 4 },
            ...{ doneBytes: doneFiles * 10, allBytes: 40 },
            ...bad,
          }),
        end: (end = {}) => settle({ seq: 50, files: 4, bytes: 40, places: [], ...end }),
      };
      readings.push(reading);
      return {
        done,
        pace: (wanted) => reading.paces.push(wanted),
        stop: () => {
          reading.stopped = true;
        },
      };
    },
    isBusy: () => busy,
    tell: (state) => told.push(state),
    trouble: (thrown) => {
      throw thrown;
    },
    now: () => nowMs,
    everyMs: 10,
  });
  open.push(verifying);
  return verifying;
}

test('it begins by itself when it is due, slowly, rests while others are at work, and says when it is due again', async () => {
  const verifying = await opened();
  expect(verifying.state()).toMatchObject({ running: null, last: null });
  expect(Date.parse(verifying.state().dueAt ?? '')).toBe(nowMs + 30 * dayMs);
  nowMs += 30 * dayMs;
  await expect.poll(() => readings.length).toBe(1);
  expect(readings[0]?.paces[0]).toMatchObject({ paused: false });
  expect(readings[0]?.paces[0]?.restTimes).toBeGreaterThan(0);
  busy = true;
  await expect.poll(() => readings[0]?.paces.at(-1)?.paused).toBe(true);
  expect(verifying.state().running).toMatchObject({ waiting: true, pace: 'slow' });
  busy = false;
  await expect.poll(() => readings[0]?.paces.at(-1)?.paused).toBe(false);
  const beganMs = nowMs;
  nowMs += dayMs;
  readings[0]?.end({ places: [{ place: 'p1', folder: '/p', files: 4, wasRead: true, journalIsBad: false }] });
  await expect.poll(() => verifying.state().last?.files).toBe(4);
  expect(verifying.state().last?.places).toEqual([{ folder: '/p', files: 4, bad: 0, wasRead: true }]);
  expect(Date.parse(verifying.state().dueAt ?? '')).toBe(beganMs + 30 * dayMs);
});

test('only second places in use are read, and the command is told which they are', async () => {
  const verifying = await opened();
  expect((await readVerificationNote(home))?.inUse).toEqual(['/mnt/two']);
  await verifying.become('running');
  expect(readings[0]?.options.inUse).toEqual(['/mnt/two']);
});

test('what a command beside the station read is told, once for each time', async () => {
  const verifying = await opened();
  const known = await readVerificationNote(home);
  if (known === null) throw new Error('no note');
  for (const files of [7, 8]) {
    const [beganMs, endedMs] = [nowMs + files, nowMs + files + 1];
    const last = { beganMs, endedMs, files, bytes: 70, badOriginals: 0, places: [] };
    await writeVerificationNote(home, { ...known, last });
    await expect.poll(() => verifying.state().last?.files).toBe(files);
  }
  expect(told.map(({ last }) => last?.files)).toEqual([7, 8]);
});

test('what it finds bad is left for the page at once, as setside verify leaves it, and replaced at the end', async () => {
  const verifying = await opened(0);
  await verifying.become('running');
  expect(readings[0]?.paces.at(-1)).toEqual({ restTimes: 0, paused: false });
  readings[0]?.file('a1', 1, { trouble: 'differs' });
  readings[0]?.file('a2', 2, { badIn: ['p1'] });
  await expect
    .poll(async () => (await readVerified(home))?.places)
    .toEqual([{ place: 'p1', seq: 50, bad: ['a2'], journalIsBad: false }]);
  expect((await readVerified(home))?.originals).toEqual([{ arrival: 'a1', trouble: 'differs' }]);
  expect(verifying.state().running).toMatchObject({ bad: 2, doneFiles: 2 });
  readings[0]?.end({ places: [{ place: 'p1', folder: '/p', files: 4, wasRead: true, journalIsBad: true }] });
  await expect.poll(() => verifying.state().last).toMatchObject({ badOriginals: 1, places: [{ bad: 1 }] });
  expect((await readVerified(home))?.places).toEqual([
    { place: 'p1', seq: 50, bad: ['a2'], journalIsBad: true },
  ]);
});

test('it goes on after a restart behind the last file, with what was found; stopped, it is not due at once', async () => {
  const first = await opened();
  await first.become('running');
  readings[0]?.file('a1', 1, { trouble: 'missing' });
  readings[0]?.file('a2', 2);
  await first.close();
  expect(readings[0]?.stopped).toBe(true);
  expect((await readVerificationNote(home))?.round).toMatchObject({
    after: 'a2',
    doneFiles: 2,
    pace: 'full',
  });
  const second = await opened();
  await expect.poll(() => readings.length).toBe(2);
  expect(readings[1]?.options.after).toBe('a2');
  expect(second.state().running).toMatchObject({ bad: 1, doneFiles: 2 });
  await second.become('stopped');
  expect(readings[1]?.stopped).toBe(true);
  expect(second.state().running).toBeNull();
  expect(Date.parse(second.state().dueAt ?? '')).toBe(nowMs + 30 * dayMs);
});
