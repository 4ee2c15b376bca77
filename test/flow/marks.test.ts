import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { actList } from '../../src/contract/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** What a person chooses comes back in the same answer, and two people at once never both win. */
describe.skipIf(!hasProgram('curl'))('marks over the real station', () => {
  let home: string;
  let station: RunningStation;
  let address: string;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    const file = join(home, 'A.TXT');
    await writeFile(file, 'a frame');
    expect((await curlUpload(station, file, '/A.TXT')).code).toBe(0);
    address = `${station.ready.web}/api/v1/frames/${(await station.frames())[0]?.id}`;
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  const mark = (value: string, ifMatch?: string): Promise<Response> =>
    fetch(address, {
      method: 'PATCH',
      headers: {
        'content-type': 'application/json',
        ...(ifMatch === undefined ? {} : { 'if-match': ifMatch }),
      },
      body: JSON.stringify({ mark: value }),
    });

  test('the answer to a mark carries that mark, each time', async () => {
    for (const value of ['hero', 'select', 'none', 'out']) {
      expect(await (await mark(value)).json()).toMatchObject({ mark: value });
    }
  });

  test('many are marked as one act, and taken back in one go; one that is not there changes none', async () => {
    const [one = ''] = (await station.frames()).map(({ id }) => id);
    const file = join(home, 'B.TXT');
    await writeFile(file, 'another frame');
    expect((await curlUpload(station, file, '/B.TXT')).code).toBe(0);
    const ids = (await station.frames()).map(({ id }) => id);
    expect(ids).toHaveLength(2);
    const send = (path: string, body: object): Promise<Response> =>
      fetch(`${station.ready.web}/api/v1${path}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
    const marksNow = async (): Promise<string[]> => (await station.frames()).map((frame) => frame.mark);
    await send('/marks', { frames: ids, mark: 'none' });
    await send('/marks', { frames: [one], mark: 'hero' });
    const before = await marksNow();
    const strange = await send('/marks', { frames: [...ids, 'nobody'], mark: 'out' });
    expect([strange.status, await marksNow()]).toEqual([400, before]);
    expect(await (await send('/marks', { frames: ids, mark: 'select' })).json()).toEqual({
      marked: 2,
      meanwhile: [],
    });
    expect(await marksNow()).toEqual(['select', 'select']);
    expect(await (await send('/undo', {})).json()).toMatchObject({
      what: { code: 'job.frames-marked', args: { count: 2, mark: 'select' } },
    });
    expect(await marksNow()).toEqual(before);
    // Somebody has seen both without a mark, and one is a hero by now: that one is left and named, the other is marked.
    const seen = Object.fromEntries(ids.map((id) => [id, 'none']));
    expect(await (await send('/marks', { frames: ids, mark: 'out', seen })).json()).toEqual({
      marked: 1,
      meanwhile: [{ frame: one, name: 'A.TXT', mark: 'hero' }],
    });
    expect((await marksNow()).sort()).toEqual(['hero', 'out']);
    // Undo takes back what was done, and no more; of one mind nobody is in the way.
    await send('/undo', {});
    expect(await marksNow()).toEqual(before);
    expect(await (await send('/marks', { frames: ids, mark: 'hero', seen })).json()).toEqual({
      marked: 1,
      meanwhile: [],
    });
    await send('/undo', {});
    expect((await send('/marks', { frames: ids, mark: 'out', seen: { [one]: 'best' } })).status).toBe(400);
  });

  test('the version of an answer is good for the next change', async () => {
    const first = await mark('hero');
    const second = await mark('alternate', first.headers.get('etag') ?? '');
    expect(second.status).toBe(200);
    expect((await mark('none', first.headers.get('etag') ?? '')).status).toBe(412);
  });

  test('of four changes at once to the same version one is taken', async () => {
    const version = (await fetch(address)).headers.get('etag') ?? '';
    const answers = await Promise.all(
      ['hero', 'select', 'alternate', 'out'].map((value) => mark(value, version)),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412, 412]);
  });

  /** What `seen` is for: a version rises with every copy and rendering, a mark only by a hand. */
  const markSeen = (mark: string, seen: object): Promise<Response> =>
    fetch(address, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ mark, seen }),
    });

  test('who would write over a mark without having seen it is told what it is now, and by whom', async () => {
    await mark('none');
    expect((await markSeen('hero', { mark: 'none' })).status).toBe(200);
    const second = await markSeen('out', { mark: 'none' });
    expect(second.status).toBe(409);
    expect(second.headers.get('content-type')).toBe('application/problem+json');
    expect(await second.json()).toMatchObject({
      code: 'changed-meanwhile',
      now: {
        mark: 'hero',
        shot: null,
        version: expect.any(Number),
        act: { by: 'operator', what: { code: 'job.frame-marked', args: { mark: 'hero' } } },
      },
    });
    expect(await (await fetch(address)).json()).toMatchObject({ mark: 'hero' });
    // Of one mind, and with open eyes.
    expect((await markSeen('hero', { mark: 'none' })).status).toBe(200);
    expect((await markSeen('out', { mark: 'hero' })).status).toBe(200);
  });

  test('of four people who saw the same mark one is first, and undo brings back what they saw', async () => {
    await mark('none');
    const values = ['hero', 'select', 'alternate', 'out'];
    const answers = await Promise.all(values.map((value) => markSeen(value, { mark: 'none' })));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409]);
    const winner = values[answers.findIndex(({ status }) => status === 200)];
    expect(await (await fetch(address)).json()).toMatchObject({ mark: winner });
    await fetch(`${station.ready.web}/api/v1/undo`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{}',
    });
    expect(await (await fetch(address)).json()).toMatchObject({ mark: 'none' });
  });

  test('a version that has gone by is refused with the one that is there', async () => {
    const answer = await mark('hero', '"1"');
    expect(answer.status).toBe(412);
    const { version } = (await (await fetch(address)).json()) as { version: number };
    expect(await answer.json()).toMatchObject({ code: 'version-changed', now: { version, mark: 'none' } });
    await fetch(`${station.ready.web}/api/v1/jobs`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{"code":"QM-26","title":"Mugs"}',
    });
    const job = await fetch(`${station.ready.web}/api/v1/jobs/QM-26`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json', 'if-match': '"0"' },
      body: '{"title":"Jugs"}',
    });
    expect(job.status).toBe(412);
    expect(await job.json()).toMatchObject({
      now: { version: 1, act: { by: 'operator', what: { code: 'job.made' } } },
    });
  });

  test('a verdict that is another than the one that was read is not accepted', async () => {
    const accept = (seen: string): Promise<Response> =>
      fetch(`${address}/acceptances/arrived`, {
        method: 'PUT',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ name: 'Ada', reason: 'so', seen }),
      });
    // A text proves nothing about its end: Arrived is unknown.
    expect(await (await accept('doubt')).json()).toMatchObject({ status: 409, code: 'changed-meanwhile' });
    expect((await accept('unknown')).status).toBe(200);
  });

  test('a frame that is not there is said to be none, and nothing is noted', async () => {
    const acts = async (): Promise<unknown> => (await fetch(`${station.ready.web}/api/v1/undo`)).json();
    const before = await acts();
    const answer = await fetch(`${station.ready.web}/api/v1/frames/nobody`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: '{"mark":"hero","seen":{"mark":"none"}}',
    });
    expect(await answer.json()).toMatchObject({ status: 404, code: 'not-found' });
    expect(await acts()).toEqual(before);
  });

  test('who marked what, and what somebody said by name, is known after a restart', async () => {
    await mark('alternate');
    const remark = { id: 'remark-1', point: null, text: 'A little lighter?', name: 'Mara' };
    const said = await fetch(`${address}/remarks`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(remark),
    });
    expect(said.status, await said.clone().text()).toBe(200);
    const ask = async () => actList.parse(await (await fetch(`${station.ready.web}/api/v1/undo`)).json());
    // What can be taken back is no news of before; what was taken back in this run is, and is known by it.
    const newOfBefore = (await ask()).told.filter(({ takenBack }) => takenBack === null);
    expect(newOfBefore.map(({ what }) => what.code)).toEqual(['told.remark-made']);
    await station.stop();
    station = await startStation(home);
    const { acts, told } = await ask();
    expect(acts).toEqual([]);
    expect(told.slice(0, 2)).toMatchObject([
      { by: 'Mara', what: { code: 'told.remark-made', args: { name: 'A.TXT' } } },
      { by: 'operator', what: { code: 'job.frame-marked', args: { name: 'A.TXT', mark: 'alternate' } } },
    ]);
  });
});
