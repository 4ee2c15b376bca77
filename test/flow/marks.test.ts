import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
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
    expect(await (await send('/marks', { frames: ids, mark: 'select' })).json()).toEqual({ marked: 2 });
    expect(await marksNow()).toEqual(['select', 'select']);
    expect(await (await send('/undo', {})).json()).toMatchObject({
      what: { code: 'job.frames-marked', args: { count: 2, mark: 'select' } },
    });
    expect(await marksNow()).toEqual(before);
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
});
