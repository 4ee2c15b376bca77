import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Specification, specificationNamed } from '../../deliver/index.ts';
import { Deliveries, type DeliveriesOptions } from './deliveries.ts';

let home: string;
beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-deliveries-'));
});
afterEach(() => rm(home, { recursive: true, force: true }));

const found = specificationNamed('web-shop')?.specification;
if (found === undefined) throw new Error('the library has a web shop');
const specification: Specification = { ...found, title: 'Web' };

function never(): never {
  throw new Error('nothing is made here');
}

/** Deliveries of which every file is made already: what is left is their end. */
function deliveriesIn(home: string, more: Partial<DeliveriesOptions> = {}): Deliveries {
  return new Deliveries({
    homePath: home,
    renderings: { fullSize: never, picture: never },
    pool: { render: never, surround: never, finish: never, prove: never },
    writer: { write: never, close: never },
    book: { row: never, rows: never, limits: never },
    jobs: { job: never },
    places: { placeOf: never, secretOf: never, assertCanSendTo: never },
    zoneOffsetMinutes: () => 0,
    now: () => 5,
    tell: () => {},
    trouble: () => {},
    ...more,
  });
}

const made = {
  ...{ file: 'a.jpg', sha256: '00', bytes: 4, widthPx: 1, heightPx: 1, frame: 'f-1', shot: '' },
  ...{ original: 'A.DNG', originalSha256: '00', look: '', lookSha256: '', findings: [] },
};

/** A delivery that a station was killed in, with its last file made. */
async function allMade(): Promise<{ readonly folder: string; readonly log: string }> {
  const below = join(home, 'jobs/QM-26/deliveries');
  const folder = join(below, 'Web');
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'a.jpg'), 'jpeg');
  const order = { id: 'd-1', job: 'QM-26', folder: 'Web', startedMs: 1, specification };
  const lines = [{ ...order, frames: [{ frame: 'f-1', file: 'a.jpg' }] }, { made }];
  const log = join(below, 'Web.jsonl');
  await writeFile(log, lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
  return { folder, log };
}

async function lastLine(path: string): Promise<unknown> {
  return JSON.parse((await readFile(path, 'utf8')).trim().split('\n').at(-1) ?? '');
}

test('a delivery whose last file is made gets its manifest and is done', async () => {
  const { folder } = await allMade();
  const deliveries = deliveriesIn(home);
  await deliveries.open();
  await vi.waitFor(() => expect(deliveries.delivery('d-1')?.state).toBe('done'));
  expect(JSON.parse(await readFile(join(folder, 'manifest.json'), 'utf8')).files).toHaveLength(1);
  await deliveries.close();
});

test('who ends a delivery, or lets it wait, between its last file and its manifest is not overruled', async () => {
  for (const state of ['aborted', 'paused'] as const) {
    const { log } = await allMade();
    const deliveries = deliveriesIn(home);
    await deliveries.open();
    // The manifest is being written: nothing has settled since.
    expect(deliveries.delivery('d-1')?.state).toBe('running');
    await deliveries.change('d-1', { state });
    await deliveries.close();
    expect(deliveries.delivery('d-1')?.state).toBe(state);
    expect(await lastLine(log)).toMatchObject({ state });
  }
});

test('a manifest that cannot be written does not make a delivery wait that somebody ended', async () => {
  const { folder, log } = await allMade();
  // A folder in the place of the file.
  await mkdir(join(folder, 'manifest.json.part'));
  const deliveries = deliveriesIn(home);
  await deliveries.open();
  await deliveries.change('d-1', { state: 'aborted' });
  await deliveries.close();
  expect(deliveries.delivery('d-1')?.state).toBe('aborted');
  expect(await lastLine(log)).toMatchObject({ state: 'aborted' });
});

test('gaps that are left as they are stay so after a restart, until somebody asks again', async () => {
  const { log } = await allMade();
  const first = deliveriesIn(home);
  await first.open();
  await vi.waitFor(() => expect(first.delivery('d-1')?.state).toBe('done'));
  expect(first.delivery('d-1')?.gapsLeft).toBe(false);
  // One that is over can be told so.
  expect((await first.change('d-1', { gapsLeft: true }))?.gapsLeft).toBe(true);
  await first.close();
  const second = deliveriesIn(home);
  await second.open();
  expect(second.delivery('d-1')).toMatchObject({ gapsLeft: true, state: 'done' });
  await second.change('d-1', { gapsLeft: false });
  expect(await lastLine(log)).toMatchObject({ gapsLeft: false });
  expect(second.delivery('d-1')?.gapsLeft).toBe(false);
  await second.close();
});
