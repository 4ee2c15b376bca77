import { copyFile, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { manifestJson, specificationNamed } from '../../deliver/index.ts';
import { type Asked, DeliveryLog, type DeliveryOrder } from './delivery-log.ts';
import { DeliveryRun } from './delivery-run.ts';

/**
 * The log of a delivery as the edition before copy space wrote it. The hash of its specification is that of Python's
 * `json.dumps(specification, sort_keys=True, separators=(',', ':'))`, which is its RFC 8785 form, by Python's `hashlib`.
 */
const oldLog = join(import.meta.dirname, '../../../test/vectors/delivery-before-copy-space.jsonl');
const oldSha256 = 'f7602693fa580f316170a5a10e13748b23341575b5fc735fa462e5dcf22d4e5b';

let folder: string;
let log: DeliveryLog;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-delivery-log-'));
  log = new DeliveryLog(join(folder, 'log.jsonl'));
});

afterEach(() => rm(folder, { recursive: true, force: true }));

async function runOf(from: DeliveryLog): Promise<DeliveryRun> {
  const read = await from.read();
  if (read === null) throw new Error('the log is read');
  return new DeliveryRun(folder, read.order, from, read.entries, () => 0);
}

test('a delivery of an earlier edition keeps the hash and the text of its specification', async () => {
  await copyFile(oldLog, join(folder, 'log.jsonl'));
  const run = await runOf(log);
  expect(run.state()).toMatchObject({ state: 'done', filesMade: 1, specificationSha256: oldSha256 });
  const written = JSON.parse(manifestJson(run.manifest()));
  expect(written.specificationSha256).toBe(oldSha256);
  const [order = ''] = (await readFile(oldLog, 'utf8')).split('\n');
  expect(written.asked).toEqual(JSON.parse(order).specification);
  // What is carried out has every member.
  expect(run.order.specification.copySpace).toBeNull();
});

const specification = specificationNamed('web-shop')?.specification;
if (specification === undefined) throw new Error('the library has a web shop');
const order: DeliveryOrder = {
  id: 'd-1',
  job: 'QM-26',
  folder: 'Web shop',
  startedMs: 1,
  specification,
  asked: specification as Asked,
  sheet: null,
  template: null,
  frames: [{ frame: 'f-1', file: 'a.jpg', known: null, naming: null }],
};

test('what was begun is read back as it was', async () => {
  await log.begin(order);
  expect(await log.read()).toEqual({ order, entries: [], isTorn: false });
  await log.append({ sent: { file: 'a.jpg', where: 'sftp://x/a.jpg', proof: 'read-back' } });
  await log.append({ state: 'paused', atMs: 2, finding: null });
  expect((await log.read())?.entries).toEqual([
    { sent: { file: 'a.jpg', where: 'sftp://x/a.jpg', proof: 'read-back' } },
    { state: 'paused', atMs: 2, finding: null },
  ]);
});

test('a second delivery does not take the log of a first', async () => {
  await log.begin(order);
  await expect(log.begin(order)).rejects.toMatchObject({ code: 'EEXIST' });
});

test('a line that a crash cut off counts for nothing, and the next one stands by itself', async () => {
  await log.begin(order);
  const path = join(folder, 'log.jsonl');
  await writeFile(path, `${await readFile(path, 'utf8')}{"notSent":{"file":"a.j`);
  expect((await log.read())?.entries).toEqual([]);
  await log.append({ state: 'done', atMs: 3, finding: null });
  expect((await log.read())?.entries).toEqual([{ state: 'done', atMs: 3, finding: null }]);
});

test('nothing is told of a log that is not there, or does not begin with an order', async () => {
  expect(await log.read()).toBeNull();
  for (const text of ['', 'null\n', '{}\n', '{"specification":{}}\n', '{"id":"d-1"']) {
    await writeFile(join(folder, 'log.jsonl'), text);
    expect(await log.read()).toBeNull();
  }
});
