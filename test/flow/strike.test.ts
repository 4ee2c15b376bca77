import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Strike, strike } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, type Ran, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** From the first frame to the signature over the real station, in the order a person would go. */
describe.skipIf(!hasProgram('curl'))('the strike check over the real station', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    await send('POST', '/jobs/QM-26/shots', { name: 'Mug', requires: [] });
    await upload(1);
    await upload(3);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  function send(method: string, path: string, body?: unknown, headers = {}): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function upload(counter: number): Promise<void> {
    const name = `QMST000${counter}.JPG`;
    const file = join(home, name);
    const grey = { r: 100 + counter, g: 100, b: 100 };
    await writeFile(
      file,
      await sharp({ create: { width: 64, height: 48, channels: 3, background: grey } })
        .jpeg()
        .toBuffer(),
    );
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
  }

  const check = async (): Promise<Strike> =>
    strike.parse(await (await send('GET', '/strike?job=QM-26')).json());
  const codes = async (): Promise<string[]> => (await check()).open.map(({ finding }) => finding.code);
  const frameOf = async (counter: number): Promise<string> =>
    (await station.frames()).find((frame) => frame.counter === counter)?.id ?? 'none';
  const line = async (code: string): Promise<string> =>
    (await check()).open.find(({ finding }) => finding.code === code)?.key ?? code;
  const setside = (...args: string[]): Promise<Ran> =>
    runProgram(process.execPath, [binary, 'strike', ...args, '--station', station.ready.web]);
  const explain = async (code: string): Promise<Response> =>
    send('POST', '/jobs/QM-26/strike/explained', { line: await line(code), name: 'Ada', reason: 'known' });

  test('what is missing is said worst first, and the command ends with 1', async () => {
    expect(await codes()).toEqual([
      'strike.no-hero',
      'strike.gap',
      'strike.number-wanted',
      'strike.no-second-place',
    ]);
    const told = await setside('QM-26', '--json');
    expect(told.code).toBe(1);
    expect(strike.parse(JSON.parse(told.stdout)).open.map(({ finding }) => finding.code)).toEqual(
      await codes(),
    );
    const read = await setside();
    expect(read.code).toBe(1);
    expect(read.stdout).toMatch(
      /^Leave the set standing: 4 lines are open\.\nCosts a reshoot:\n {2}.*Mug.* has no hero\.\n/,
    );
    expect(read.stdout).toContain('number 0002 never came');
    // It has not read the card, so it never says that one may be wiped.
    expect(read.stdout).toMatch(/Whether a card may be wiped it cannot say/);
  });

  test('a job that is not there is a sentence and 1', async () => {
    const told = await setside('NONE');
    expect([told.code, told.stderr]).toEqual([1, expect.stringContaining('There is no job NONE')]);
    expect((await send('GET', '/strike?job=NONE')).status).toBe(404);
  });

  test('what is mended, accepted and explained closes line by line', async () => {
    const hero = await frameOf(3);
    expect((await send('PATCH', `/frames/${hero}`, { mark: 'hero' })).status).toBe(200);
    await eventually('the hero is asked about', async () =>
      (await codes()).includes('strike.verdict-doubt') ? true : undefined,
    );
    expect((await explain('strike.verdict-doubt')).status).toBe(409);
    const accepted = { name: 'Ada', reason: 'one disk today' };
    expect((await send('PUT', `/frames/${hero}/acceptances/arrived`, accepted)).status).toBe(200);
    expect((await explain('strike.gap')).status).toBe(200);
    expect((await send('PUT', '/jobs/QM-26/strike/numbers/cam9', { counter: 3 })).status).toBe(400);
    expect((await send('PUT', '/jobs/QM-26/strike/numbers/cam1', { counter: 4 })).status).toBe(200);
    expect(await codes()).toEqual(['strike.numbers-missing', 'strike.no-second-place']);
    expect((await setside('--last', 'cam1=0003')).code).toBe(1);
    expect(await codes()).toEqual(['strike.no-second-place']);
  });

  test('only what is ready is signed, and only as it was seen', async () => {
    const { state } = await check();
    const early = await send('PUT', '/jobs/QM-26/strike/signature', { name: 'Ada', state });
    expect(await early.json()).toMatchObject({ status: 409, code: 'strike-not-ready' });
    const unsigned = await setside('QM-26', '--sign', 'Ada');
    expect(unsigned.code).toBe(1);
    expect(unsigned.stdout).toContain('Not signed by Ada: one line is still open.');
    const nowhere = await setside('NOPE');
    expect(nowhere.code).toBe(1);
    expect(nowhere.stderr).toContain('There is no job NOPE');
    expect((await explain('strike.no-second-place')).status).toBe(200);
    const late = await send('PUT', '/jobs/QM-26/strike/signature', { name: 'Ada', state });
    expect(await late.json()).toMatchObject({ status: 409, code: 'strike-changed' });
    const signed = await setside('QM-26', '--sign', 'Ada', '--json');
    expect(signed.code).toBe(0);
    expect(strike.parse(JSON.parse(signed.stdout))).toMatchObject({
      ready: true,
      signed: { name: 'Ada', stands: true },
      accepted: [{ finding: { code: 'strike.gap' } }, {}, {}],
    });
  });

  test('a signature outlives a killed station, a later change reopens the check, and undo closes it again', async () => {
    await station.kill();
    station = await startStation(home);
    expect(await check()).toMatchObject({ ready: true, signed: { name: 'Ada', stands: true } });
    const hero = await frameOf(3);
    await send('PATCH', `/frames/${hero}`, { mark: 'select' });
    expect(await check()).toMatchObject({ ready: false, signed: { name: 'Ada', stands: false } });
    expect((await send('POST', '/undo', {})).status).toBe(200);
    expect(await check()).toMatchObject({ ready: true, signed: { stands: true } });
    await send('DELETE', '/jobs/QM-26/strike/signature');
    expect((await check()).signed).toBeNull();
    expect(await (await send('POST', '/undo', {})).json()).toMatchObject({
      what: { code: 'job.signature-gone' },
    });
    expect((await check()).signed).toMatchObject({ name: 'Ada', stands: true });
  });

  test('a frame that comes after the signature reopens it', async () => {
    await upload(4);
    await eventually('the frame counts', async () => ((await check()).frames === 3 ? true : undefined));
    expect(await check()).toMatchObject({ ready: false, signed: { stands: false } });
    expect(await codes()).toContain('strike.number-behind');
  });
});
