import { randomUUID } from 'node:crypto';
import { existsSync, rmSync, statSync } from 'node:fs';
import { cp, mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { checkCard, type Keep, openKeep } from '../index.ts';
import type { CardProgress, CardReport } from './card-report.ts';

// A second device: memory that Linux shows as a disk.
const memory = '/dev/shm';
const hasMemory =
  existsSync(memory) && existsSync(tmpdir()) && statSync(memory).dev !== statSync(tmpdir()).dev;
const options = { memoryCounts: true, cardDevice: -1n };

let top = '';
let other = '';
let home = '';
let card = '';
let place = '';

beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), 'setside-card-'));
  other = await mkdtemp(join(hasMemory ? memory : tmpdir(), 'setside-card-'));
  home = join(top, 'home');
  card = join(top, 'card');
  place = join(other, 'place');
  await mkdir(join(card, 'DCIM', '100QMUG'), { recursive: true });
});
afterEach(async () => {
  await rm(top, { recursive: true, force: true });
  await rm(other, { recursive: true, force: true });
});

function textOf(name: string): string {
  return `${name} `.repeat(50);
}

/** Puts a file on the card. */
async function onCard(name: string, text = textOf(name)): Promise<void> {
  await writeFile(join(card, 'DCIM', '100QMUG', name), text);
}

async function keptOf(keep: Keep): Promise<{ readonly arrival: string }[]> {
  const kept: { readonly arrival: string }[] = [];
  for await (const record of keep.records()) if (record.type === 'kept') kept.push(record);
  return kept;
}

async function keepOne(keep: Keep, name: string): Promise<{ arrival: string; original: string }> {
  const arrival = await keep
    .folderOf('cam1')
    .open(`/${name}`, { via: 'ftp', at: 'start', announcedBytes: null });
  await arrival.write(new TextEncoder().encode(textOf(name)));
  expect((await arrival.finish('closed')).kind).toBe('kept');
  for await (const record of keep.records())
    if (record.type === 'kept' && record.name === name) return record;
  throw new Error(`${name} was not kept`);
}

/** A home that keeps these files and a second place that has a copy of each. */
async function homeWith(...names: readonly string[]): Promise<void> {
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
  for (const name of names) {
    const { arrival } = await keepOne(keep, name);
    await keep.append({ type: 'copied', arrival, place: 'p1', readBack: 'direct', otherDevice: true });
  }
  await keep.close();
  await cp(join(home, 'jobs'), join(place, 'jobs'), { recursive: true });
  await writeFile(join(place, 'setside-copy.json'), '{"setside":"second place","place":"p1"}');
}

function states({ files }: CardReport): string[] {
  return files.map(({ path, state }) => `${path.split('/').at(-1)} ${state}`);
}

function codes({ files, findings }: CardReport): string[] {
  return [...findings, ...files.flatMap((file) => file.findings)].map(({ code }) => code);
}

describe.skipIf(!hasMemory)('K12 a card check', () => {
  test('K12.1 every file in the home and on another disk is safe, under whatever name it came', async () => {
    await homeWith('A.JPG', 'B.JPG');
    await onCard('A.JPG');
    await onCard('RENAMED.JPG', textOf('B.JPG'));
    const report = await checkCard(home, card, undefined, options);
    expect(report).toMatchObject({ safe: true, findings: [], passedOver: [] });
    expect(states(report)).toEqual(['A.JPG safe', 'RENAMED.JPG safe']);
    expect(report.files[0]?.copies).toEqual([place]);
  });

  test('K12.2 a file that never came is missing, also where another of its name and size is here', async () => {
    await homeWith('A.JPG', 'B.JPG');
    await onCard('A.JPG');
    await onCard('B.JPG', textOf('b.JPG'));
    await onCard('C.JPG', 'much shorter');
    const report = await checkCard(home, card, undefined, options);
    expect(report.safe).toBe(false);
    expect(states(report)).toEqual(['A.JPG safe', 'B.JPG missing', 'C.JPG missing']);
  });

  test('K12.3 what the journal says is not believed: an altered original or copy proves nothing', async () => {
    await homeWith('A.JPG', 'B.JPG', 'C.JPG');
    for (const name of ['A.JPG', 'B.JPG', 'C.JPG']) await onCard(name);
    const inHome = (name: string): string => join('jobs/QM-26/originals/cam1', name);
    await writeFile(join(home, inHome('A.JPG')), textOf('a.JPG'));
    await writeFile(join(place, inHome('B.JPG')), textOf('b.JPG'));
    await rm(join(home, inHome('C.JPG')));
    await rm(join(place, inHome('C.JPG')));
    const report = await checkCard(home, card, undefined, options);
    expect(states(report)).toEqual(['A.JPG once', 'B.JPG once', 'C.JPG missing']);
    expect(codes(report).sort()).toEqual([
      'card.no-copy',
      'card.no-copy',
      'card.original-bad',
      'card.original-bad',
    ]);
    expect(report.safe).toBe(false);
  });

  test('K12.4 a place that is away, lies with the home, in memory or on the card counts for nothing', async () => {
    await homeWith('A.JPG');
    await onCard('A.JPG');
    const onPlace = { ...options, cardDevice: statSync(other, { bigint: true }).dev };
    const cases = [
      ['copy.in-memory', await checkCard(home, card, undefined, { cardDevice: -1n })],
      ['card.is-place', await checkCard(home, card, undefined, onPlace)],
    ] as const;
    await rename(place, join(other, 'elsewhere'));
    const away = ['copy.away', await checkCard(home, card, undefined, options)] as const;
    for (const [code, report] of [...cases, away]) {
      expect(codes(report), code).toEqual([code]);
      expect([report.safe, ...states(report)], code).toEqual([false, 'A.JPG once']);
    }
  });

  test('K12.4 a place that was given up is not spoken of where every file is safe without it', async () => {
    await homeWith('A.JPG');
    const keep = await openKeep({
      home,
      inspect: async () => ({ kind: 'unknown' }),
      newId: randomUUID,
      now: Date.now,
      jobOf: () => 'QM-26',
      diskFloorBytes: 0,
      hashWorkers: 0,
    });
    await keep.append({ type: 'place-made', place: 'p2', folder: join(other, 'given-up') });
    const [{ arrival } = expect.unreachable()] = await keptOf(keep);
    await keep.append({ type: 'copied', arrival, place: 'p2', readBack: 'direct', otherDevice: true });
    await keep.close();
    await onCard('A.JPG');
    expect(await checkCard(home, card, undefined, options)).toMatchObject({ safe: true, findings: [] });
    await onCard('B.JPG');
    const report = await checkCard(home, card, undefined, options);
    expect([report.safe, ...codes(report)]).toEqual([false, 'copy.away']);
  });

  test('K12.5 a copy of a card that lies beside the home is no card', async () => {
    await homeWith('A.JPG');
    await onCard('A.JPG');
    const report = await checkCard(home, card, undefined, { memoryCounts: true });
    expect(report.safe).toBe(false);
    expect(codes(report)).toEqual(['card.is-home']);
  });

  test('K12.6 a card pulled out in the middle: what was proved stays, the rest is unread, and nothing is safe as a whole', async () => {
    await homeWith('A.JPG', 'B.JPG', 'C.JPG');
    for (const name of ['A.JPG', 'B.JPG', 'C.JPG']) await onCard(name);
    const pull = ({ path }: CardProgress): void => {
      if (!path.endsWith('B.JPG')) return;
      // An empty mount point stays.
      rmSync(join(card, 'DCIM'), { recursive: true, force: true });
    };
    const report = await checkCard(home, card, pull, options);
    expect(states(report)).toEqual(['A.JPG safe', 'B.JPG unread', 'C.JPG unread']);
    expect(report.findings).toEqual([{ code: 'card.gone', args: { folder: card, done: 1, count: 3 } }]);
    expect(report.safe).toBe(false);
  });

  test('K12.7 an empty card is not safe, and what computers leave on one is named, not counted', async () => {
    await homeWith('A.JPG');
    await writeFile(join(card, '.hidden'), 'x');
    const report = await checkCard(home, card, undefined, options);
    expect(report).toMatchObject({ safe: false, files: [], passedOver: ['.hidden'] });
    expect(codes(report)).toEqual(['card.empty']);
  });
});

test('a card check without a folder is none', async () => {
  await expect(checkCard(home, join(top, 'nothing'))).rejects.toMatchObject({ code: 'no-card' });
});
