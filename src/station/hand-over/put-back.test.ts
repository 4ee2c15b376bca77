import { randomUUID } from 'node:crypto';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import {
  type JournalRecord,
  openKeep,
  openSecondPlaces,
  readVerified,
  writeVerified,
} from '../../keep/index.ts';
import { BadOriginals } from '../bad-originals.ts';
import { putBackInHome, puttingBack } from './put-back.ts';

let root = '';
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-putting-back-'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

test('without a station: what the last reading found bad is put back, journalled, and known against no more', async () => {
  const home = join(root, 'home');
  const open = (): ReturnType<typeof openKeep> =>
    openKeep({
      home,
      inspect: async () => ({ kind: 'whole' }),
      newId: randomUUID,
      now: Date.now,
      jobOf: () => 'QM-26',
      diskFloorBytes: 0,
      hashWorkers: 0,
    });
  const keep = await open();
  const places = openSecondPlaces({
    ...{ home, folders: [join(root, 'one')], keep },
    newId: randomUUID,
    say: () => {},
  });
  const copied = new Promise<string>((resolve) => {
    keep.on((event) => {
      if (event.type === 'copied') resolve(event.arrival);
    });
  });
  const arrival = await keep
    .folderOf('cam1')
    .open('/A.DNG', { via: 'ftp', at: 'start', announcedBytes: null });
  await arrival.write(new TextEncoder().encode('as sent'));
  await arrival.finish('closed');
  const id = await copied;
  await places.close();
  await keep.close();
  const path = join(home, 'jobs/QM-26/originals/cam1/A.DNG');
  await writeFile(path, 'scratched');
  await writeVerified(home, { beganMs: 1, originals: [{ arrival: id, trouble: 'differs' }], places: [] });

  const { originals } = await putBackInHome(home, null);
  expect(originals).toMatchObject([{ outcome: 'put-back', aside: 'set-aside/A.DNG' }]);
  expect(await readFile(path, 'utf8')).toBe('as sent');
  expect((await readVerified(home))?.originals).toEqual([]);
  const again = await open();
  const noted: JournalRecord[] = [];
  for await (const record of again.records()) if (record.type === 'put-back') noted.push(record);
  await again.close();
  expect(noted).toMatchObject([{ arrival: id, aside: 'set-aside/A.DNG', v: 7 }]);
  // Nothing is known to be bad any more.
  expect(await putBackInHome(home, null)).toEqual({ originals: [] });
});

test('beside a station: one that is good again is known against no more, one that no place holds stays known', async () => {
  const badOriginals = new BadOriginals();
  badOriginals.found({ arrival: 'a1', frame: 'f-a1' }, 'differs', 1);
  // A reading has just found these; the station has not heeded it yet, and one was sent again since.
  const originals = ['a2', 'gone'].map((arrival) => ({
    arrival,
    frame: `f-${arrival}`,
    trouble: 'differs' as const,
  }));
  await writeVerified(root, { beganMs: 1, originals, places: [] });
  const changed: string[] = [];
  badOriginals.onChange((frame) => changed.push(frame));
  const records: object[] = [];
  const append = vi.fn(async (record: object) => {
    records.push(record);
    return {
      v: 7,
      seq: 1,
      group: 1,
      atMs: 1,
      type: 'put-back',
      arrival: 'a1',
      place: 'p',
      aside: null,
    } as const;
  });
  const putBackNoted: string[][] = [];
  const put = puttingBack({
    homePath: root,
    keep: { append, keptFile: (arrival) => (arrival === 'gone' ? null : {}) },
    badOriginals,
    places: { originalsRead: () => {} },
    verifying: { putBack: async (arrivals) => void putBackNoted.push([...arrivals]) },
    now: () => 2,
    put: (_home, names) => ({
      done: Promise.resolve(
        names.map((arrival) => {
          const file = { arrival, frame: `f-${arrival}`, original: `${arrival}.DNG` };
          return arrival === 'a1'
            ? { ...file, kind: 'put-back' as const, place: 'p', folder: '/two', aside: null }
            : { ...file, kind: 'no-copy' as const, away: ['/off'] };
        }),
      ),
      pace: () => {},
      stop: () => {},
    }),
  });
  const answer = await put(null);
  expect(answer.originals.map(({ outcome }) => outcome)).toEqual(['put-back', 'no-copy']);
  expect(answer.originals[1]?.findings.map(({ code }) => code)).toEqual([
    'copy.none-holds-original',
    'copy.away-for-original',
  ]);
  expect(records).toEqual([{ type: 'put-back', arrival: 'a1', place: 'p', aside: null }]);
  expect(badOriginals.of('a1')).toBeNull();
  expect(changed).toEqual(['f-a1']);
  expect(putBackNoted).toEqual([['a1']]);
});
