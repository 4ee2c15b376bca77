import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type ActEntry,
  actList,
  type Frame,
  type ImportReport,
  importReport,
  type Job,
  job as jobSchema,
} from '../../src/contract/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

/** A day's paperwork over the real station: what is chosen holds, comes back after a start, and can be taken back. */
describe.skipIf(!hasProgram('curl'))('jobs over the real station', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  async function send(method: string, path: string, body?: unknown, headers = {}): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function job(code = 'QM-26'): Promise<Job> {
    return jobSchema.parse(await (await send('GET', `/jobs/${code}`)).json());
  }

  async function upload(name: string, text = name): Promise<Frame> {
    const file = join(home, name);
    await writeFile(file, text);
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
    return eventually(`${name} is listed`, async () =>
      (await station.frames()).find((frame) => frame.name === name),
    );
  }

  async function importCsv(text: string | Uint8Array<ArrayBuffer>, query = ''): Promise<ImportReport> {
    const answer = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/shots/import${query}`, {
      method: 'POST',
      headers: { 'content-type': 'text/csv' },
      body: text,
    });
    expect(answer.status).toBe(200);
    return importReport.parse(await answer.json());
  }

  const names = async (): Promise<string[]> => (await job()).shots.map(({ name }) => name);

  interface Said {
    readonly stdout: string;
    readonly stderr: string;
    readonly code: number;
  }

  async function setside(...args: string[]): Promise<Said> {
    return command('job', ...args);
  }

  async function command(...args: string[]): Promise<Said> {
    return run(process.execPath, [binary, ...args, '--station', station.ready.web]).then(
      (said) => ({ ...said, code: 0 }),
      ({ stdout, stderr, code }: Said) => ({ stdout, stderr, code }),
    );
  }

  test('a job is made, and a second one of its code is not', async () => {
    const wish = {
      code: 'QM-26',
      title: 'Autumn catalogue',
      client: 'Quillmere Ceramics',
      from: '2026-10-01',
    };
    const made = await send('POST', '/jobs', { ...wish, open: true });
    expect(made.status).toBe(201);
    expect(made.headers.get('etag')).toBe(`"${(await job()).version}"`);
    expect(await made.json()).toMatchObject({ ...wish, state: 'open', shots: [] });
    expect((await send('POST', '/jobs', { code: 'qm-26' })).status).toBe(409);
    expect(await (await send('POST', '/jobs', { code: '../x' })).json()).toMatchObject({
      code: 'bad-job-code',
    });
  });

  test('a list is looked at first, then taken in; bad lines are named and left out', async () => {
    const list = 'Shot;Heroes;Price\r\nMug;1;9\r\nJug;many;9\r\n;1;9\r\nBowl;2;9\r\n';
    const preview = await importCsv(list, '?preview=1');
    expect(preview).toMatchObject({
      preview: true,
      unknownColumns: ['Price'],
      badLines: 2,
      encoding: 'utf-8',
    });
    expect(preview.bad.map(({ line }) => line)).toEqual([3, 4]);
    expect(await names()).toEqual([]);
    expect((await importCsv(list)).lines.map(({ what }) => what)).toEqual(['added', 'added']);
    expect(await names()).toEqual(['Mug', 'Bowl']);
    // The job was open before it had a shot.
    expect((await job()).currentShot).toBe('mug');
  });

  test('a list of an older spreadsheet is read, and its encoding is said to be a guess', async () => {
    const report = await importCsv(new Uint8Array(Buffer.from('name\r\nKr\u00fcge\r\n', 'latin1')));
    expect(report).toMatchObject({ encoding: 'windows-1252', guessed: true });
    expect(await names()).toEqual(['Krüge', 'Mug', 'Bowl']);
  });

  test('a file that is no text is refused', async () => {
    const answer = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/shots/import`, {
      method: 'POST',
      headers: { 'content-type': 'text/csv' },
      body: new Uint8Array([0, 1, 2]),
    });
    expect(await answer.json()).toMatchObject({ status: 400, code: 'bad-text' });
  });

  test('what goes out comes in again and changes nothing, as CSV and as JSON', async () => {
    await send('PATCH', '/jobs/QM-26/shots/mug', {
      description: '=1+1, "two"\r\nlines ',
      tolerances: { shiftPx: { good: 1.5, bad: 4 } },
      requires: [],
      camera: null,
    });
    const before = await job();
    for (const [format, type] of [
      ['csv', 'text/csv'],
      ['json', 'application/json'],
    ] as const) {
      const out = await send('GET', `/jobs/QM-26/shots/export?format=${format}`);
      expect(out.headers.get('content-type')).toContain(type);
      const back = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/shots/import`, {
        method: 'POST',
        headers: { 'content-type': type },
        body: await out.arrayBuffer(),
      });
      const { lines } = importReport.parse(await back.json());
      expect(lines.map(({ what }) => what)).toEqual(['same', 'same', 'same']);
    }
    expect(await job()).toEqual(before);
  });

  test('frames go to the shot that is current when they begin to arrive, and to none where none is', async () => {
    await send('PATCH', '/jobs/QM-26', { currentShot: null });
    expect((await upload('A.TXT')).shot).toBeNull();
    await send('PATCH', '/jobs/QM-26', { currentShot: 'bowl' });
    expect(await upload('B.TXT')).toMatchObject({ job: 'QM-26', shot: 'bowl' });
    await send('PATCH', '/jobs/QM-26', { currentShot: 'mug' });
    expect((await upload('C.TXT')).shot).toBe('mug');
    expect((await station.frames()).find(({ name }) => name === 'B.TXT')?.shot).toBe('bowl');
  });

  test('a frame is moved, gets a purpose, and its verdict is accepted by name', async () => {
    const { id, verdicts } = await upload('D.TXT');
    const changed = await send('PATCH', `/frames/${id}`, { shot: 'bowl', purpose: 'test', mark: 'select' });
    expect(await changed.json()).toMatchObject({ shot: 'bowl', purpose: 'test', mark: 'select' });
    expect(await (await send('PATCH', `/frames/${id}`, { shot: 'nowhere' })).json()).toMatchObject({
      code: 'no-shot',
    });
    expect(verdicts.arrived.judgement).not.toBe('good');
    const words = { name: 'Ada', reason: 'a text is a text' };
    const accepted = await send('PUT', `/frames/${id}/acceptances/arrived`, words);
    expect(await accepted.json()).toMatchObject({
      acceptances: [{ question: 'arrived', ...words, judgement: verdicts.arrived.judgement, covers: true }],
    });
    expect(
      (await send('PUT', `/frames/${id}/acceptances/arrived`, { name: 'Ada', reason: ' ' })).status,
    ).toBe(400);
  });

  test('of two changes of one version one is taken', async () => {
    const etag = `"${(await job()).version}"`;
    const titles = ['one', 'two'].map((title) =>
      send('PATCH', '/jobs/QM-26', { title }, { 'if-match': etag }),
    );
    expect((await Promise.all(titles)).map(({ status }) => status).sort()).toEqual([200, 412]);
  });

  test('a shot with frames is hidden and its frames stay; one without is gone; undo brings both back', async () => {
    await send('DELETE', '/jobs/QM-26/shots/bowl');
    await send('DELETE', '/jobs/QM-26/shots/kruege');
    expect(await names()).toEqual(['Mug']);
    expect((await station.frames()).some(({ shot }) => shot === 'bowl')).toBe(true);
    expect((await send('PATCH', '/jobs/QM-26/shots/bowl', { heroes: 1 })).status).toBe(404);
    for (let times = 0; times < 2; times += 1) expect((await send('POST', '/undo', {})).status).toBe(200);
    expect(await names()).toEqual(['Krüge', 'Mug', 'Bowl']);
  });

  test('an act goes back by its id unless a later one touched the same', async () => {
    const [frame] = await station.frames();
    await send('PATCH', `/frames/${frame?.id}`, { mark: 'hero' });
    await send('PATCH', '/jobs/QM-26', { place: 'Studio 2' });
    await send('PATCH', `/frames/${frame?.id}`, { mark: 'out' });
    const { acts } = actList.parse(await (await send('GET', '/undo')).json());
    const [last, , first]: readonly (ActEntry | undefined)[] = acts;
    expect(await (await send('POST', '/undo', { act: first?.id })).json()).toMatchObject({
      code: 'undo-overtaken',
    });
    expect((await send('POST', '/undo', { act: last?.id })).status).toBe(200);
    expect((await send('POST', '/undo', { act: first?.id })).status).toBe(200);
    expect((await station.frame(frame?.id ?? '')).mark).toBe(frame?.mark);
    expect((await job()).place).toBe('Studio 2');
  });

  test('a shot that got frames since it was added stays, and so does what they belong to', async () => {
    await send('POST', '/jobs/QM-26/shots', { name: 'Ladle' });
    const { id, shot } = await upload('LADLE.TXT');
    await send('PATCH', `/frames/${id}`, { shot: 'ladle' });
    const { acts } = actList.parse(await (await send('GET', '/undo')).json());
    const added = acts.find(({ what }) => what.code === 'job.shot-added');
    expect(await (await send('POST', '/undo', { act: added?.id })).json()).toMatchObject({
      code: 'has-frames',
      title: 'There are frames in it',
    });
    expect(await names()).toContain('Ladle');
    await send('PATCH', `/frames/${id}`, { shot });
    expect((await send('POST', '/undo', { act: added?.id })).status).toBe(200);
    expect(await names()).not.toContain('Ladle');
  });

  test('the command lists, takes in, puts out, closes and opens', async () => {
    const file = join(home, 'more.csv');
    await writeFile(file, 'name,heroes\nTeapot,2\nGroup,lots\n');
    expect(await setside('import', 'QM-26', file, '--preview')).toMatchObject({ code: 1 });
    expect(await names()).not.toContain('Teapot');
    const { stdout, code } = await setside('import', 'QM-26', file);
    expect([code, stdout]).toEqual([
      1,
      'Line 3 says “lots” for heroes, which cannot be read; it may be: a whole number from 0 to 99.\nThe order of the list is taken over; shots that it does not name come after.\nDone: 1 added, 0 changed, 0 as they were.\n',
    ]);
    const out = join(home, 'list.csv');
    expect((await setside('export', 'QM-26', out)).code).toBe(0);
    expect(await readFile(out, 'utf8')).toContain('Teapot');
    expect((await setside('export', 'QM-26', out)).code).toBe(3);
    expect((await setside('export', 'QM-26', out)).stderr).toContain('--replace');
    expect((await setside('export', 'QM-26', out, '--replace')).code).toBe(0);
    await setside('close', 'QM-26');
    expect((await send('PATCH', '/jobs/QM-26', { title: 'x' })).status).toBe(409);
    expect(await setside('import', 'QM-26', file)).toMatchObject({
      code: 3,
      stderr:
        'setside: Job QM-26 is closed\n         setside job lay-aside QM-26 takes it up again; setside job open QM-26 also has frames go to it.\n',
    });
    // The client's word comes later: marks are still taken, and nothing else of a frame.
    const frame = (await station.frames()).find((each) => each.job === 'QM-26');
    expect((await send('PATCH', `/frames/${frame?.id}`, { mark: 'select' })).status).toBe(200);
    expect((await send('PATCH', `/frames/${frame?.id}`, { mark: 'select', shot: null })).status).toBe(409);
    expect((await setside('lay-aside', 'QM-26')).stdout).toContain('QM-26  waiting');
    expect((await setside('open', 'QM-26')).code).toBe(0);
    expect((await setside('list')).stdout).toContain('QM-26  open  4 shots');
  });

  test('opening a job that is there drops no words: it says how to put them', async () => {
    const { code, stderr } = await setside('open', 'QM-26', '--title', 'Winter');
    expect([code, stderr]).toEqual([3, expect.stringMatching(/is there already.*\n.*job change QM-26/)]);
    expect((await setside('change', 'QM-26', '--title', 'Winter', '--to', '')).stdout).toContain('Winter');
    expect(await job()).toMatchObject({ title: 'Winter', to: null });
  });

  test('two shots of one name are told apart by their ids, and a link for one of them asks which', async () => {
    await send('POST', '/jobs/QM-26/shots', { name: 'Teapot' });
    const { stderr, code } = await command('link', 'add', 'guest', '--job', 'QM-26', '--shot', 'Teapot');
    expect([code, stderr]).toEqual([
      1,
      expect.stringContaining('id=teapot (number 1), id=teapot-2 (number 5)'),
    ]);
    expect((await setside('show', 'QM-26')).stdout).toMatch(/\(teapot\)[\s\S]*\(teapot-2\)/);
    await send('PATCH', '/jobs/QM-26', { currentShot: 'teapot-2' });
    const told = actList.parse(await (await send('GET', '/undo')).json()).acts[0];
    expect(told?.what.args).toMatchObject({ shot: 'Teapot (teapot-2)' });
    for (let times = 0; times < 2; times += 1) await send('POST', '/undo', {});
  });

  test('what was taken back is put back, until something else is done', async () => {
    await send('PATCH', '/jobs/QM-26', { place: 'Yard' });
    await send('PATCH', '/jobs/QM-26', { notes: 'Rain' });
    for (let times = 0; times < 2; times += 1) await send('POST', '/undo', {});
    expect(await job()).not.toMatchObject({ place: 'Yard' });
    for (let times = 0; times < 2; times += 1) expect((await send('POST', '/undo/back')).status).toBe(200);
    expect(await job()).toMatchObject({ place: 'Yard', notes: 'Rain' });
    await send('POST', '/undo', {});
    await send('PATCH', '/jobs/QM-26', { client: 'Somebody' });
    expect(await (await send('POST', '/undo/back')).json()).toMatchObject({ code: 'nothing-to-put-back' });
    expect(await job()).toMatchObject({ place: 'Yard', client: 'Somebody' });
  });

  test('a copied job has the shots, and frames go to it once it is open', async () => {
    await send('POST', '/jobs', { code: 'QM-27', copyOf: 'QM-26', open: true });
    expect((await job('QM-27')).shots.map(({ name }) => name)).toEqual(await names());
    expect((await job('QM-27')).currentShot).toBe((await job('QM-27')).shots[0]?.id);
    expect((await job()).state).toBe('waiting');
    expect((await upload('E.TXT')).job).toBe('QM-27');
    expect(await (await send('POST', '/undo', {})).json()).toMatchObject({ code: 'has-frames' });
  });

  test('everything is as it was after a start, and the register made anew is the same', async () => {
    const jobs = await (await send('GET', '/jobs')).json();
    const frames = await station.frames();
    await station.stop();
    const { stdout } = await run(process.execPath, [binary, 'verify', '--rebuild', '--home', home, '--json']);
    expect(JSON.parse(stdout)).toMatchObject({ same: true });
    station = await startStation(home);
    expect(await (await send('GET', '/jobs')).json()).toEqual(jobs);
    const chosen = ({ id, job: code, shot, mark, purpose, acceptances }: Frame): unknown => {
      return { id, code, shot, mark, purpose, acceptances };
    };
    expect((await station.frames()).map(chosen)).toEqual(frames.map(chosen));
  });
});
