import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { DeliveryEntry } from './delivery-log.ts';
import type { DeliveryRun } from './delivery-run.ts';
import { RunSending } from './run-sending.ts';
import { type Sending, sendFiles, sendManifests } from './send-delivery.ts';

let root = '';
let folder = '';
let there = '';
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'setside-send-delivery-'));
  folder = join(root, 'made');
  there = join(root, 'disk/QM-26/Web');
  await mkdir(folder);
  await mkdir(join(root, 'disk'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

interface MadeFile {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
}

async function madeFile(file: string, text: string): Promise<MadeFile> {
  await writeFile(join(folder, file), text);
  // Node's crypto (FIPS 180-4).
  return { file, bytes: text.length, sha256: createHash('sha256').update(text).digest('hex') };
}

/** A delivery of these files to a destination, with what was noted of it. Only what the sending asks of a run. */
function runOf(made: readonly MadeFile[]): { readonly run: DeliveryRun; readonly noted: DeliveryEntry[] } {
  const noted: DeliveryEntry[] = [];
  const sending = new RunSending();
  const next = (): MadeFile | null => made.find(({ file }) => !sending.isSettled(file)) ?? null;
  const run = {
    order: { job: 'QM-26', folder: 'Web', specification: { destination: { kind: 'named', name: 'disk' } } },
    sending,
    nextToSend: next,
    firstNotSent: next,
    note: async (entry: DeliveryEntry) => {
      noted.push(entry);
      if ('sent' in entry || 'notSent' in entry || 'upload' in entry) sending.take(entry);
    },
  };
  return { run: run as unknown as DeliveryRun, noted };
}

const signal = (): AbortSignal => new AbortController().signal;
const sending = (): Sending => ({
  places: {
    placeOf: async () => ({ kind: 'folder', path: join(root, 'disk') }),
    secretOf: async () => null,
  },
  folder,
  now: () => 0,
  tell: () => {},
});

test('every file goes to the folder of its job and delivery, and what is there is noted; a second time nothing is sent', async () => {
  const files = [await madeFile('a.jpg', 'one'), await madeFile('b.jpg', 'two')];
  const { run, noted } = runOf(files);
  await sendFiles(run, sending(), signal());
  expect((await readdir(there)).sort()).toEqual(['a.jpg', 'b.jpg']);
  expect(await readFile(join(there, 'b.jpg'), 'utf8')).toBe('two');
  const sent = noted.flatMap((entry) => ('sent' in entry ? [entry.sent.file] : []));
  expect(sent).toEqual(['a.jpg', 'b.jpg']);
  const count = noted.length;
  await sendFiles(run, sending(), signal());
  expect(noted).toHaveLength(count);
});

test('a name that is taken there costs its own file only: it is noted as not sent, theirs stays, the next is sent', async () => {
  const files = [await madeFile('a.jpg', 'one'), await madeFile('b.jpg', 'two')];
  await mkdir(there, { recursive: true });
  await writeFile(join(there, 'a.jpg'), 'theirs');
  const { run, noted } = runOf(files);
  await sendFiles(run, sending(), signal());
  expect(noted).toContainEqual({
    notSent: { file: 'a.jpg', finding: { code: 'send.name-taken', args: { name: 'a.jpg' } } },
  });
  expect(await readFile(join(there, 'a.jpg'), 'utf8')).toBe('theirs');
  expect(await readFile(join(there, 'b.jpg'), 'utf8')).toBe('two');
});

test('a manifest goes along with its own hash, and under a number where one lies there from before', async () => {
  await writeFile(join(folder, 'manifest.csv'), 'a list');
  const { run } = runOf([]);
  await sendManifests(run, ['manifest.csv'], sending(), signal());
  await writeFile(join(folder, 'manifest.csv'), 'a later list');
  run.sending.again();
  await sendManifests(run, ['manifest.csv'], sending(), signal());
  expect(await readFile(join(there, 'manifest.csv'), 'utf8')).toBe('a list');
  expect(await readFile(join(there, 'manifest-2.csv'), 'utf8')).toBe('a later list');
});
