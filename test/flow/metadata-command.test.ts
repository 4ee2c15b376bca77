import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { job as jobSchema, metadataSheetList, problem } from '../../src/contract/index.ts';
import { type Ran, runProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** Words for files by command and by call, over the real station. */
describe('setside metadata', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    expect((await send('POST', '/jobs', { code: 'QM-26' })).status).toBe(201);
    expect((await send('POST', '/jobs/QM-26/shots', { name: 'Mug' })).status).toBe(201);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  function send(method: string, path: string, body: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  }

  const setside = (...args: string[]): Promise<Ran> =>
    runProgram(process.execPath, [binary, 'metadata', ...args, '--station', station.ready.web]);
  const saidOf = async (code: string): Promise<unknown> => {
    const answer = await fetch(`${station.ready.web}/api/v1/jobs/${code}`);
    const { metadata } = jobSchema.parse(await answer.json());
    return metadata === '' ? null : JSON.parse(metadata);
  };
  const sheet = { version: 1, title: 'Quillmere', shots: { Mug: { caption: 'A mug' } } };

  test('a file is kept, listed, shown, used by a job, forgotten and brought back', async () => {
    expect((await setside('list')).stdout).toContain('setside metadata keep');
    const file = join(home, 'sheet.json');
    await writeFile(file, JSON.stringify(sheet));
    expect(await setside('keep', file)).toMatchObject({ code: 0, stdout: 'Kept: Quillmere\n' });
    expect(await setside('list')).toMatchObject({ code: 0, stdout: 'Quillmere\n' });
    expect(JSON.parse((await setside('show', 'QUILLMERE')).stdout)).toMatchObject(sheet);
    expect((await setside('use', 'quillmere', 'QM-26')).code).toBe(0);
    expect(await saidOf('QM-26')).toMatchObject(sheet);
    const forgotten = await setside('forget', 'Quillmere');
    expect(forgotten.stdout).toContain('setside metadata bring-back "Quillmere"');
    expect((await setside('show', 'Quillmere')).code).toBe(1);
    expect(await setside('bring-back', 'Quillmere')).toMatchObject({ code: 0 });
    expect(JSON.parse((await setside('show', 'Quillmere')).stdout)).toMatchObject(sheet);
    const again = await setside('bring-back', 'Quillmere');
    expect(again).toMatchObject({ code: 1 });
    expect(again.stderr).toContain('No metadata sheet was forgotten as Quillmere');
  });

  test('the words of a job are kept under another title; what nobody said is not', async () => {
    expect((await setside('keep', '--job', 'QM-26', '--as', 'Mugs')).code).toBe(0);
    const listed = metadataSheetList.parse(JSON.parse((await setside('list', '--json')).stdout));
    expect(listed.sheets.map(({ title }) => title)).toEqual(['Mugs', 'Quillmere']);
    await send('POST', '/jobs', { code: 'QM-27' });
    expect((await setside('keep', '--job', 'QM-27')).code).toBe(1);
    expect((await setside('keep')).code).toBe(2);
    expect((await setside('use', 'Mugs', 'NONE')).stderr).toContain('no job NONE');
  });

  test('a file that is no sheet is told by name, and the others are there', async () => {
    const path = join(home, 'metadata/strange.json');
    await mkdir(join(home, 'metadata'), { recursive: true });
    await writeFile(path, '{"version":1,"title":"x","all":{"caption":"{colour}"}}');
    const ran = await setside('list');
    expect(ran.code).toBe(1);
    expect(ran.stdout).toMatch(/^Mugs\nQuillmere\nmetadata\/strange\.json cannot be used: all\.caption/);
    expect((await setside('show', 'Mugs')).code).toBe(0);
    expect(await readFile(path, 'utf8')).toContain('{colour}');
    await rm(path);
    expect((await setside('list')).code).toBe(0);
  });

  test('a shot that gets another name keeps its words, and has them back with the old one', async () => {
    expect((await send('PATCH', '/jobs/QM-26/shots/mug', { name: 'Blue mug' })).status).toBe(200);
    expect(await saidOf('QM-26')).toMatchObject({ shots: { 'Blue mug': { caption: 'A mug' } } });
    expect((await send('POST', '/undo', {})).status).toBe(200);
    expect(await saidOf('QM-26')).toMatchObject({ shots: { Mug: { caption: 'A mug' } } });
  });

  test('words that cannot be written are refused by a code of their own, with the field that is wrong', async () => {
    const bad = { version: 1, title: 'x', all: { contact: { website: 'no address' } } };
    const refused = [
      await send('PATCH', '/jobs/QM-26', { metadata: JSON.stringify(bad) }),
      await send('POST', '/metadata', { metadata: bad }),
      await send('POST', '/deliveries', { job: 'QM-26', specification: 'print', metadata: bad }),
      await send('POST', '/deliveries/plan', { job: 'QM-26', specification: 'print', metadata: bad }),
    ];
    for (const answer of refused) {
      expect(answer.status).toBe(422);
      expect(problem.parse(await answer.json())).toMatchObject({
        code: 'bad-metadata',
        detail: expect.stringContaining('all.contact.website'),
        finding: { args: { member: 'all.contact.website' } },
      });
    }
    expect(await saidOf('QM-26')).toMatchObject({ shots: { Mug: { caption: 'A mug' } } });
    const noJson = await send('PATCH', '/jobs/QM-26', { metadata: '{' });
    expect(problem.parse(await noJson.json())).toMatchObject({ code: 'bad-metadata' });
  });
});
