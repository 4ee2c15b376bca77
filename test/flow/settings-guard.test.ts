import { execFile } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { type Fault, renderFrame } from '../../src/stand-in/index.ts';
import { sentence } from '../../src/words/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

/** Half an hour ago by the camera's clock. */
const beganMs = Math.floor(Date.now() / 1000) * 1000 - 1_800_000;

const dial = (value: number): Fault => ({ name: 'sensitivity', value });
const autoBalance: Fault = { name: 'white-balance', value: null };

/** What is held against what the stand-in was told to set: the figures come from its orders, not from the station. */
describe.skipIf(!hasProgram('curl'))('a camera whose settings were bumped', () => {
  let home: string;
  let station: RunningStation;
  let shot = '';

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await call('POST', '/jobs', { code: 'QM-26', open: true });
    await call('POST', '/jobs/QM-26/shots', { name: 'Mug' });
    const job = await call<{ shots: { id: string }[] }>('GET', '/jobs/QM-26');
    shot = job.shots[0]?.id ?? '';
    const first = await sent('QMST0001.DNG', 0, []);
    await call('PATCH', `/jobs/QM-26/shots/${shot}`, { reference: first.id });
  }, 120_000);

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  async function call<Answer>(method: string, path: string, body?: unknown): Promise<Answer> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    expect(answer.ok, `${method} ${path} is answered ${answer.status}`).toBe(true);
    return (await answer.json()) as Answer;
  }

  async function sent(name: string, atS: number, faults: readonly Fault[]): Promise<Frame> {
    const { bytes } = await renderFrame({ sizeMegapixels: 0.1, shutterMs: beganMs + atS * 1000, faults });
    const file = join(home, name);
    await writeFile(file, bytes);
    const ran = await curlUpload(station, file, `/DCIM/100SETSD/${name}`);
    expect(ran.code, ran.stderr).toBe(0);
    const { id } = await eventually(`${name} is judged on its raw`, async () =>
      (await station.frames()).find(
        (frame) => frame.name === name && frame.readings.headroomStops !== undefined,
      ),
    );
    // By its shutter it comes from before the shot was there.
    await call('PATCH', `/frames/${id}`, { shot });
    return station.frame(id);
  }

  /** What is said of the settings, now. */
  async function said(id: string): Promise<string[]> {
    const { verdicts } = await station.frame(id);
    return verdicts.exposed.findings
      .filter(({ code }) => code.startsWith('exposed.setting-'))
      .map((finding) => sentence(finding));
  }

  test('each setting that differs from the reference’s is a doubt of Exposed, with what it was and is', async () => {
    const same = await sent('QMST0002.DNG', 60, []);
    expect(await said(same.id)).toEqual([]);
    const bumped = await sent('QMST0003.DNG', 120, [dial(50), autoBalance]);
    expect(await said(bumped.id)).toEqual([
      'Sensitivity ISO 50 since the reference’s ISO 100.',
      'The camera chooses the white balance itself; in the reference it was set by hand.',
    ]);
    expect(bumped.verdicts.exposed.judgement).toBe('doubt');
    // The dial explains all of the light's difference, so the light is not told.
    expect(bumped.verdicts.exposed.findings.map(({ code }) => code)).not.toContain('exposed.off-reference');
  }, 180_000);

  test('it is accepted by name, and that is taken back, as any doubt', async () => {
    const id = await idOf('QMST0003.DNG');
    const words = { name: 'Ada', reason: 'wanted' };
    const taken = await call<Frame>('PUT', `/frames/${id}/acceptances/exposed`, words);
    expect(taken.acceptances).toMatchObject([{ question: 'exposed', judgement: 'doubt', covers: true }]);
    await call('POST', '/undo', {});
    expect((await station.frame(id)).acceptances).toEqual([]);
    expect(await said(id)).toHaveLength(2);
  });

  test('a frame that is no picture is not told, and a new baseline from here takes it back', async () => {
    const id = await idOf('QMST0003.DNG');
    await call('PATCH', `/frames/${id}`, { purpose: 'test' });
    expect(await said(id)).toEqual([]);
    await call('PATCH', `/frames/${id}`, { purpose: 'picture' });
    const next = await sent('QMST0004.DNG', 180, [dial(50), autoBalance]);
    expect(await said(next.id)).toHaveLength(2);
    await call('POST', `/jobs/QM-26/shots/${shot}/baseline`, { frame: id });
    expect(await said(next.id)).toEqual([]);
    expect(await said(id)).toEqual([]);
    // From here on the dials that were right before are the bumped ones.
    const back = await sent('QMST0005.DNG', 240, []);
    expect(await said(back.id)).toContain('Sensitivity ISO 100 since the reference’s ISO 50.');
    expect(await said(await idOf('QMST0002.DNG'))).toEqual([]);
    await call('DELETE', `/jobs/QM-26/shots/${shot}/baseline/${id}`);
    expect(await said(next.id)).toHaveLength(2);
    expect(await said(back.id)).toEqual([]);
  }, 180_000);

  test('a bracket takes back what was said of its frames', async () => {
    const under = await sent('QMST0006.DNG', 300, [dial(50)]);
    expect(await said(under.id)).toHaveLength(1);
    await sent('QMST0007.DNG', 301, []);
    const over = await sent('QMST0008.DNG', 302, [dial(200)]);
    expect(await said(over.id)).toEqual([]);
    expect(await said(under.id)).toEqual([]);
  }, 180_000);

  test('the command says the same of files, and knows a bracket among them', async () => {
    const file = (name: string): string => join(home, name);
    const judge = async (...names: string[]): Promise<string> => {
      const args = [binary, 'judge', '--reference', file('QMST0001.DNG'), ...names.map(file)];
      const ran = await run(process.execPath, args).catch((failed: { stdout: string }) => failed);
      return ran.stdout;
    };
    expect(await judge('QMST0003.DNG')).toContain('Sensitivity ISO 50 since the reference’s ISO 100.');
    expect(await judge('QMST0006.DNG', 'QMST0007.DNG', 'QMST0008.DNG')).not.toContain('Sensitivity');
  }, 180_000);

  async function idOf(name: string): Promise<string> {
    const frame = (await station.frames()).find((each) => each.name === name);
    if (frame === undefined) throw new Error(`${name} is not here`);
    return frame.id;
  }
});
