import { randomUUID } from 'node:crypto';
import { cp, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { checkBag } from '../../bagging/index.ts';
import { specificationNamed } from '../../deliver/index.ts';
import { type Keep, openKeep } from '../../keep/index.ts';
import { bagOfJob } from './bag-of-job.ts';

let top = '';
let home = '';
let job = 'QM-26';
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), 'setside-job-bag-'));
  home = join(top, 'home');
  job = 'QM-26';
});
afterEach(() => rm(top, { recursive: true, force: true }));

function openHome(): Promise<Keep> {
  return openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => job,
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
}

async function send(keep: Keep, path: string, text: string, end: 'closed' | 'reset' = 'closed') {
  const arrival = await keep.folderOf('cam1').open(path, { via: 'ftp', at: 'start', announcedBytes: null });
  await arrival.write(new TextEncoder().encode(text.repeat(100)));
  return arrival.finish(end);
}

async function frameOf(keep: Keep, name: string): Promise<string> {
  for await (const record of keep.records())
    if (record.type === 'kept' && record.name === name) return record.frame;
  throw new Error(`${name} was not kept`);
}

test('a bag holds the job’s frames, moved ones too, with sidecars, deliveries, looks and the journal’s words', async () => {
  const keep = await openHome();
  await send(keep, '/A.DNG', 'a');
  await send(keep, '/B.DNG', 'b');
  await send(keep, '/C.DNG', 'c', 'reset');
  job = 'unsorted';
  await send(keep, '/D.DNG', 'd');
  const moved = await frameOf(keep, 'D.DNG');
  await keep.append({ type: 'job-set', frame: moved, job: 'QM-26' });
  await keep.append({ type: 'job-set', frame: await frameOf(keep, 'B.DNG'), job: 'QM-27' });
  await keep.append({ type: 'mark-set', frame: moved, mark: 'hero' });
  await keep.close();
  await mkdir(join(home, 'jobs/QM-26/sidecars/cam1'), { recursive: true });
  await writeFile(join(home, 'jobs/QM-26/sidecars/cam1/A.xmp'), '<x/>');
  await mkdir(join(home, 'jobs/QM-26/deliveries/web'), { recursive: true });
  await writeFile(join(home, 'jobs/QM-26/deliveries/web/mug.jpg'), 'jpeg');
  // What a delivery keeps for itself is nobody else's.
  await writeFile(join(home, 'jobs/QM-26/deliveries/web.jsonl'), '{}\n');
  await mkdir(join(home, 'jobs/QM-26/deliveries/.web.making'));
  await writeFile(join(home, 'jobs/QM-26/deliveries/.web.making/rendered.tif'), 'tiff');

  const folder = join(top, 'bag');
  const made = await bagOfJob(home, 'QM-26', folder, Date.UTC(2026, 10, 30));
  expect(made).toMatchObject({ valid: true, originals: 2, unfinished: 1, findings: [] });
  const manifest = await readFile(join(folder, 'manifest-sha256.txt'), 'utf8');
  const listed = manifest
    .trim()
    .split('\n')
    .map((line) => line.slice(66));
  expect(listed).toEqual([
    'data/jobs/QM-26/deliveries/web/mug.jpg',
    'data/jobs/QM-26/originals/cam1/A.DNG',
    'data/jobs/QM-26/sidecars/cam1/A.xmp',
    'data/jobs/unsorted/originals/cam1/D.DNG',
    'data/journal-extract.jsonl',
  ]);
  const extract = (await readFile(join(folder, 'data/journal-extract.jsonl'), 'utf8')).trim().split('\n');
  const types = extract.map((line) => JSON.parse(line).type);
  expect(types).toContain('mark-set');
  expect(extract.join()).not.toContain('B.DNG');
  const info = await readFile(join(folder, 'bag-info.txt'), 'utf8');
  expect(info).toContain('Bagging-Date: 2026-11-30\n');
  // A bag is for years: it holds by itself, wherever it is carried.
  await cp(folder, join(top, 'elsewhere'), { recursive: true });
  await rm(home, { recursive: true });
  expect((await checkBag(join(top, 'elsewhere'))).valid).toBe(true);
});

test('a job that nobody knows, and a place in the home, are refused', async () => {
  const keep = await openHome();
  await send(keep, '/A.DNG', 'a');
  await keep.close();
  await expect(bagOfJob(home, 'QM-99', join(top, 'bag'), 0)).rejects.toMatchObject({ code: 'no-job' });
  for (const folder of [home, join(home, 'jobs', 'bag')])
    await expect(bagOfJob(home, 'QM-26', folder, 0)).rejects.toMatchObject({ code: 'bag-in-home' });
});

test('an original that was altered since never comes into a bag', async () => {
  const keep = await openHome();
  await send(keep, '/A.DNG', 'a');
  await keep.close();
  await writeFile(join(home, 'jobs/QM-26/originals/cam1/A.DNG'), 'x'.repeat(100));
  await expect(bagOfJob(home, 'QM-26', join(top, 'bag'), 0)).rejects.toMatchObject({
    code: 'bag-source-altered',
  });
});

test('a delivery that did not come to its end is not in a bag, and is named with what to do', async () => {
  const keep = await openHome();
  await send(keep, '/A.DNG', 'a');
  await keep.close();
  const below = join(home, 'jobs/QM-26/deliveries');
  const done = { state: 'done' };
  const again = { state: 'running' };
  await delivery(below, 'Web', []);
  await delivery(below, 'Print', [{ state: 'running' }, { state: 'paused' }]);
  await delivery(below, 'Press', [{ state: 'aborted' }]);
  await delivery(below, 'Done', [done]);
  // What could not be sent is sent again: all of it is made.
  await delivery(below, 'Sent again', [done, again]);
  const folder = join(top, 'bag');
  const made = await bagOfJob(home, 'QM-26', folder, 0);
  expect(made.valid).toBe(true);
  expect(made.leftOut).toEqual([
    { code: 'bag.delivery-ended-early', args: { title: 'Press' } },
    { code: 'bag.delivery-waits', args: { title: 'Print' } },
    { code: 'bag.delivery-under-way', args: { title: 'Web' } },
  ]);
  const listed = (await readFile(join(folder, 'manifest-sha256.txt'), 'utf8')).match(/deliveries\/.*/g);
  expect(listed).toEqual(['deliveries/Done/mug.jpg', 'deliveries/Sent again/mug.jpg']);
  // The home is read only: a log that a crash tore is mended by the station, not here.
  expect(await readFile(join(below, 'Web.jsonl'), 'utf8')).toMatch(/torn$/);
});

async function delivery(below: string, title: string, states: readonly object[]): Promise<void> {
  const found = specificationNamed('web-shop')?.specification;
  if (found === undefined) throw new Error('the library has a web shop');
  const order = { id: title, job: 'QM-26', folder: title, startedMs: 1, frames: [] };
  const lines = [
    { ...order, specification: { ...found, title } },
    ...states.map((state) => ({ ...state, atMs: 2, finding: null })),
  ];
  await mkdir(join(below, title), { recursive: true });
  await writeFile(join(below, title, 'mug.jpg'), 'jpeg');
  const text = lines.map((line) => `${JSON.stringify(line)}\n`).join('');
  await writeFile(join(below, `${title}.jsonl`), `${text}torn`);
}
