import { randomUUID } from 'node:crypto';
import { mkdir, mkdtemp, open, readdir, readFile, readlink, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type BagDesk, bagDesk, cardDesk } from '../../src/contract/index.ts';
import { Journal } from '../../src/keep/journal.ts';
import { replayJournal } from '../../src/keep/journal-reader.ts';
import { nodeDisk } from '../../src/keep/node-disk.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** What goes on in processes of its own when the station dies: nothing outlives it, and what can go on does. */
const isLinux = process.platform === 'linux';

let home: string;
let beside: string;
let station: RunningStation | null;
beforeEach(async () => {
  home = await newHome();
  beside = await mkdtemp(join(tmpdir(), 'setside-beside-'));
  station = null;
});
afterEach(async () => {
  await station?.kill();
  await removeHome(home);
  await rm(beside, { recursive: true, force: true });
});

/** proc_pid_stat(5): the parent is the fourth field; a name in brackets may hold blanks. */
async function childrenOf(pid: number, entry: string): Promise<number[]> {
  const found: number[] = [];
  for (const name of await readdir('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const stat = await readFile(`/proc/${name}/stat`, 'utf8').catch(() => '');
    const line = await readFile(`/proc/${name}/cmdline`, 'utf8').catch(() => '');
    const parent = stat.slice(stat.lastIndexOf(')')).split(' ')[2];
    if (parent === String(pid) && line.includes(entry)) found.push(Number(name));
  }
  return found;
}

async function isAlive(pid: number): Promise<boolean> {
  const stat = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
  const state = stat.slice(stat.lastIndexOf(')')).split(' ')[1];
  return state !== undefined && state !== 'Z';
}

/** Whether a process has a file open whose path ends so. */
async function holds(pid: number, ending: string): Promise<boolean> {
  const open = await readdir(`/proc/${pid}/fd`).catch(() => []);
  const paths = await Promise.all(open.map((fd) => readlink(`/proc/${pid}/fd/${fd}`).catch(() => '')));
  return paths.some((path) => path.endsWith(ending));
}

async function niceOf(pid: number): Promise<number> {
  const stat = await readFile(`/proc/${pid}/stat`, 'utf8');
  return Number(stat.slice(stat.lastIndexOf(')')).split(' ')[17]);
}

/** A file that takes minutes to read and no room on the disk: it is all hole. */
async function sparse(path: string, bytes: number): Promise<void> {
  await mkdir(join(path, '..'), { recursive: true });
  const file = await open(path, 'w');
  await file.truncate(bytes);
  await file.close();
}

/** A journal that knows one film, on which no station has worked yet. */
async function keptFilm(original: string, sizeBytes: number): Promise<void> {
  const journalFolder = join(home, 'journal');
  await mkdir(journalFolder, { recursive: true });
  const end = await replayJournal(nodeDisk(), journalFolder, () => {});
  const journal = await Journal.open(nodeDisk(), journalFolder, end, Date.now, () => {});
  await journal.append({
    ...{ type: 'kept', arrival: randomUUID(), frame: randomUUID(), job: 'unsorted', camera: 'cam1' },
    ...{ path: '/QMST0001.MOV', name: 'QMST0001.MOV', original, sizeBytes, sha256: 'a'.repeat(64) },
    ...{ wholeness: 'unknown', expectedBytes: null, firstByteMs: null, lastByteMs: null },
  });
  await journal.close();
}

test.skipIf(!isLinux)(
  'copying to a second place ends with a station that is killed, in the middle of a film that takes minutes',
  async () => {
    const place = join(beside, 'place');
    await mkdir(place);
    station = await startStation(home, ['--copy', place]);
    await eventually('the place is known', async () => (await readdir(place)).includes('setside-copy.json'));
    await station.stop();
    const sizeBytes = 200e9;
    const original = 'jobs/unsorted/originals/cam1/QMST0001.MOV';
    await keptFilm(original, sizeBytes);
    await sparse(join(home, original), sizeBytes);
    // What lies there already is read before anything is written: that takes minutes and no room.
    await sparse(join(place, original), sizeBytes);
    const running = await startStation(home, ['--copy', place]);
    station = running;
    const pid = running.process.pid ?? expect.unreachable();
    const child = await eventually('it is in the film', async () => {
      for (const id of await childrenOf(pid, 'copy-child.js')) if (await holds(id, 'QMST0001.MOV')) return id;
      return null;
    });
    await running.kill();
    await expect.poll(() => isAlive(child), { timeout: 20_000 }).toBe(false);
  },
  180_000,
);

test.skipIf(!isLinux)(
  'the reading of a card ends with a station that is killed, in the middle of a film that takes minutes',
  async () => {
    const sizeBytes = 200e9;
    const card = join(beside, 'card');
    await sparse(join(card, 'DCIM/100QMST/QMST0001.MOV'), sizeBytes);
    const original = 'jobs/unsorted/originals/cam1/QMST0001.MOV';
    await sparse(join(home, original), sizeBytes);
    // A file is read only where one of its size is known.
    await keptFilm(original, sizeBytes);
    const running = await startStation(home, ['--card', card]);
    station = running;
    const begun = await fetch(`${running.ready.web}/api/v1/cards`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ folder: card }),
    });
    expect(begun.status).toBe(202);
    await eventually('it is in the file', async () => {
      const { check } = cardDesk.parse(await (await fetch(`${running.ready.web}/api/v1/cards`)).json());
      return check?.state === 'checking' && check.files === 1;
    });
    const pid = running.process.pid ?? expect.unreachable();
    const [child] = await childrenOf(pid, 'reading-child.js');
    if (child === undefined) expect.unreachable();
    await running.kill();
    await expect.poll(() => isAlive(child), { timeout: 20_000 }).toBe(false);
  },
  180_000,
);

test.skipIf(!isLinux || !hasProgram('curl'))(
  'a bag that is being made when the station is killed goes on with the next, and holds by other software too',
  async () => {
    const archive = join(beside, 'archive');
    await mkdir(archive);
    const running = await startStation(home);
    station = running;
    const call = async (method: string, path: string, body?: unknown): Promise<Response> => {
      const web = station?.ready.web ?? expect.unreachable();
      const answer = await fetch(`${web}/api/v1${path}`, {
        method,
        headers: body === undefined ? {} : { 'content-type': 'application/json' },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      expect(answer.ok, `${method} ${path}: ${answer.status}`).toBe(true);
      return answer;
    };
    const desk = async (): Promise<BagDesk> => bagDesk.parse(await (await call('GET', '/bags')).json());
    await call('PUT', '/destinations/archive', { place: { kind: 'folder', path: archive } });
    const file = join(beside, 'A.BIN');
    await writeFile(file, Buffer.alloc(30_000_000, 'mug'));
    for (const name of ['A.BIN', 'B.BIN']) expect((await curlUpload(running, file, `/${name}`)).code).toBe(0);
    const folder = join(archive, 'unsorted');
    await call('POST', '/bags', { job: 'unsorted', folder });
    // A frame has just come, so that it makes way.
    expect((await desk()).work).toMatchObject({ state: 'running', waiting: true });
    const [child] = await childrenOf(running.process.pid ?? expect.unreachable(), 'bag-child.js');
    if (child === undefined) expect.unreachable();
    // Behind everything else that computes: nice is the nineteenth field, 0 where nobody said anything.
    await expect.poll(() => niceOf(child), { timeout: 20_000 }).toBeGreaterThan(0);
    await running.kill();
    await expect.poll(() => isAlive(child), { timeout: 20_000 }).toBe(false);
    expect(await readdir(archive)).toEqual([]);

    // Nothing arrives now: it is written. Killed in the middle of that, or after it on a fast machine.
    station = await startStation(home);
    await eventually('something is written', async () => (await readdir(archive)).includes('unsorted'));
    await station.kill();
    station = await startStation(home);
    await eventually('the bag is made', async () => (await desk()).work?.state === 'done');
    const { work, bags } = await desk();
    // Two originals of 30,000,000 bytes and the journal's extract.
    expect(work?.outcome).toMatchObject({ valid: true, files: 3, originals: 2, unfinished: 0 });
    expect(bags).toEqual([{ folder, state: 'whole' }]);
    const info = await readFile(join(folder, 'bag-info.txt'), 'utf8');
    expect(info).toContain(`Payload-Oxum: ${work?.outcome?.payloadOxum}`);
    // Outside check: GNU coreutils.
    const sums = await runProgram('env', [
      '-C',
      folder,
      'sha256sum',
      '--strict',
      '-c',
      'manifest-sha256.txt',
    ]);
    expect(sums.code, sums.stderr).toBe(0);

    await writeFile(join(folder, 'data/jobs/unsorted/originals/cam1/A.BIN'), 'jug');
    await call('POST', '/bags/check', { folder });
    await eventually('it is read again', async () => (await desk()).work?.state === 'done');
    const altered = (await desk()).work?.outcome;
    expect(altered).toMatchObject({ valid: false, originals: null });
    expect(altered?.findings.map(({ finding }) => finding.code)).toContain('bag.altered');
    const inHome = await fetch(`${station.ready.web}/api/v1/bags`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ job: 'unsorted', folder: join(home, 'jobs/bag') }),
    });
    expect([inHome.status, (await inHome.json()).code]).toEqual([403, 'bag-not-allowed']);
  },
  300_000,
);
