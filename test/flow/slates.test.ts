import { execFile } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  actList,
  type CameraEntry,
  type Frame,
  type Job,
  job as jobSchema,
  station as stationSchema,
} from '../../src/contract/index.ts';
import { writeSlate } from '../../src/slate/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';
import { cameraPicture, type PictureWish } from './slate-picture.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

type Told = Pick<Frame, 'name' | 'shot' | 'purpose' | 'slate'>;

/** A day with slates over the real station. Its frames are taken some minutes ago, ten seconds apart. */
describe.skipIf(!hasProgram('curl'))('slates over the real station', () => {
  const startMs = Date.now() - 600_000;
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await send('POST', '/jobs', { code: 'OTHER' });
    await send('POST', '/jobs', { code: 'QM-26' });
    for (const name of ['Mug', 'Jug', 'Bowl', 'Teapot']) await send('POST', '/jobs/QM-26/shots', { name });
    // Opened with its shots there and none of them current: only a slate says which.
    await send('PATCH', '/jobs/QM-26', { state: 'open' });
    // Said by a slate: a person's word of now would count from now on, behind all frames of this day.
    await take('A000.JPG', -20, { codes: [slateOf('mug')] });
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  async function send(method: string, path: string, body?: unknown): Promise<unknown> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    expect(answer.ok, `${method} ${path}: ${answer.status}`).toBe(true);
    return answer.json();
  }

  const job = async (): Promise<Job> => jobSchema.parse(await send('GET', '/jobs/QM-26'));
  const slateOf = (shot: string, code = 'QM-26'): string => writeSlate({ kind: 'shot', job: code, shot });

  /** Comes in, and is looked at: what was held into it is carried out when this settles. */
  async function take(
    name: string,
    seconds: number,
    wish: Omit<PictureWish, 'takenMs'> = {},
    camera?: CameraEntry,
  ): Promise<Frame> {
    const file = join(home, name);
    await writeFile(file, await cameraPicture({ ...wish, takenMs: startMs + seconds * 1000 }));
    const by =
      camera === undefined ? station : { ...station, user: camera.user, password: camera.password ?? '' };
    expect((await curlUpload(by, file, `/${name}`)).code).toBe(0);
    const frame = await eventually(`${name} is rendered`, async () =>
      (await station.frames()).find((each) => each.name === name && each.picture.state === 'rendered'),
    );
    if (wish.codes === undefined && wish.background === undefined) return frame;
    return eventually(`${name} is looked at`, async () => {
      const now = await station.frame(frame.id);
      return now.slate === null ? null : now;
    });
  }

  const frameNamed = async (name: string): Promise<Frame> => {
    const found = (await station.frames()).find((frame) => frame.name === name);
    if (found === undefined) throw new Error(`no ${name}`);
    return found;
  };
  const shots = async (...names: string[]): Promise<(string | null)[]> =>
    Promise.all(names.map(async (name) => (await frameNamed(name)).shot));

  test('a slate changes the shot, and is a test itself', async () => {
    await take('A001.JPG', 0);
    const slate = await take('A002.JPG', 10, { codes: [slateOf('jug')] });
    expect(slate).toMatchObject({
      purpose: 'test',
      shot: 'jug',
      slate: { code: 'slate.slate-now', args: { name: 'Jug' } },
    });
    expect((await job()).currentShot).toBe('jug');
    await take('A003.JPG', 20);
    expect(await shots('A001.JPG', 'A002.JPG', 'A003.JPG')).toEqual(['mug', 'jug', 'jug']);
  });

  test('a slate that comes after frames behind it takes them along, but for one that was moved by hand', async () => {
    await take('A005.JPG', 40);
    const byHand = await take('A006.JPG', 50);
    await send('PATCH', `/frames/${byHand.id}`, { shot: 'teapot' });
    await take('A004.JPG', 30, { codes: [slateOf('bowl')] });
    await eventually('the frame behind it followed', async () => (await shots('A005.JPG'))[0] === 'bowl');
    expect(await shots('A003.JPG', 'A004.JPG', 'A005.JPG', 'A006.JPG')).toEqual([
      'jug',
      'bowl',
      'bowl',
      'teapot',
    ]);
    expect((await job()).currentShot).toBe('bowl');
  });

  test('a slate in front of one that was heeded reaches up to that one and no further', async () => {
    await take('A00B.JPG', 15, { codes: [slateOf('teapot')] });
    await eventually('the frame behind it followed', async () => (await shots('A003.JPG'))[0] === 'teapot');
    expect((await frameNamed('A00B.JPG')).slate?.code).toBe('slate.slate-from-here');
    expect(await shots('A001.JPG', 'A002.JPG', 'A003.JPG', 'A005.JPG')).toEqual([
      'mug',
      'jug',
      'teapot',
      'bowl',
    ]);
    expect((await job()).currentShot).toBe('bowl');
  });

  test('a frame that comes late goes where its place in the order of the shutter says', async () => {
    await take('A00C.JPG', 12);
    await take('A00D.JPG', 22);
    await take('A00E.JPG', -5);
    await eventually('all three are placed', async () => (await shots('A00E.JPG'))[0] === 'mug');
    expect(await shots('A00C.JPG', 'A00D.JPG', 'A00E.JPG')).toEqual(['jug', 'teapot', 'mug']);
  });

  test('slates that are not of this job or list say so and change nothing', async () => {
    const findings = [];
    for (const [name, code] of [
      ['B001.JPG', slateOf('mug', 'OTHER')],
      ['B002.JPG', slateOf('mug', 'NOBODY')],
      ['B003.JPG', slateOf('vase')],
    ] as const) {
      const frame = await take(name, 60, { codes: [code] });
      expect(frame.purpose).toBe('picture');
      findings.push(frame.slate?.code);
    }
    const several = await take('B004.JPG', 61, { codes: [slateOf('mug'), slateOf('jug')] });
    findings.push(several.slate?.code);
    expect(findings).toEqual(['slate.other-job', 'slate.unknown-job', 'slate.unknown-shot', 'slate.several']);
    expect((await job()).currentShot).toBe('bowl');
  });

  test('a code that is not ours is no slate', async () => {
    const file = join(home, 'B005.JPG');
    const codes = ['https://example.org/', slateOf('mug').replace('mug', 'jug')];
    await writeFile(file, await cameraPicture({ takenMs: startMs + 62_000, codes }));
    await curlUpload(station, file, '/B005.JPG');
    await take('B006.JPG', 63);
    const frame = await eventually('it is rendered', async () => {
      const now = await frameNamed('B005.JPG');
      return now.picture.state === 'rendered' ? now : null;
    });
    expect(frame).toMatchObject({ slate: null, purpose: 'picture', shot: 'bowl' });
  });

  test('a grey card says nothing until the job lets it, then "next shot", once however often it is shown', async () => {
    const plain = { background: '#767676' };
    const file = join(home, 'C001.JPG');
    await writeFile(file, await cameraPicture({ ...plain, takenMs: startMs + 70_000 }));
    await curlUpload(station, file, '/C001.JPG');
    await take('C002.JPG', 71);
    expect((await job()).currentShot).toBe('bowl');
    await send('PATCH', '/jobs/QM-26', { greyCard: true });
    const card = await take('C003.JPG', 80, plain);
    expect(card).toMatchObject({ purpose: 'target', shot: 'teapot', slate: { code: 'slate.grey-card-now' } });
    const again = await take('C004.JPG', 81, plain);
    expect(again).toMatchObject({ purpose: 'target', slate: { code: 'slate.grey-card-again' } });
    await take('C005.JPG', 90);
    const last = await take('C006.JPG', 100, plain);
    expect(last.slate?.code).toBe('slate.no-next-shot');
    expect((await job()).currentShot).toBe('teapot');
    await send('PATCH', '/jobs/QM-26', { greyCard: false });
  });

  test('what a slate did is taken back in one go, and stays taken back', async () => {
    const frame = await take('D001.JPG', 110, { codes: [slateOf('mug')] });
    await take('D003.JPG', 130);
    await take('D002.JPG', 120, { codes: [slateOf('jug')] });
    await eventually('the frame behind it followed', async () => (await shots('D003.JPG'))[0] === 'jug');
    const { acts } = actList.parse(await send('GET', '/undo'));
    expect(acts[0]).toMatchObject({ by: 'cam1', what: { code: 'slate.slate-now', args: { name: 'Jug' } } });
    await send('POST', '/undo', {});
    expect((await job()).currentShot).toBe('mug');
    expect(await shots('D001.JPG', 'D002.JPG', 'D003.JPG')).toEqual(['mug', 'mug', 'mug']);
    expect(await frameNamed('D002.JPG')).toMatchObject({
      purpose: 'picture',
      slate: { code: 'slate.taken-back' },
    });
    expect((await station.frame(frame.id)).slate?.code).toBe('slate.slate-now');
  });

  test('a camera that photographs the clock shows how far its own is off, and is put right', async () => {
    const seen = async (): Promise<CameraEntry['clockSeen']> =>
      stationSchema.parse(await send('GET', '/station')).cameras[0]?.clockSeen ?? null;
    expect(await seen()).toBeNull();
    const atMs = startMs + 200_000 - 2400 - 100;
    await take('E001.JPG', 200, {
      codes: [writeSlate({ kind: 'clock', atMs, refreshMs: 200, unsureMs: 5 })],
    });
    const clock = await seen();
    expect(Math.abs((clock?.offsetMs ?? 0) + 2400)).toBeLessThanOrEqual(clock?.plusMinusMs ?? 0);
    expect(clock?.plusMinusMs).toBeLessThan(200);
    expect(await frameNamed('E001.JPG')).toMatchObject({
      purpose: 'test',
      slate: { code: 'slate.clock', args: { camera: 'cam1' } },
    });
    const shutter = async (): Promise<number> =>
      Date.parse((await frameNamed('E001.JPG')).times.shutter ?? '');
    await send('PATCH', '/cameras/cam1', { clock: { offsetMs: clock?.offsetMs, since: 'always' } });
    expect(Math.abs((await shutter()) - (atMs + 100))).toBeLessThanOrEqual(clock?.plusMinusMs ?? 0);
  });

  test('what a person says later stands; a slate from before it reaches up to it', async () => {
    await send('PATCH', '/jobs/QM-26', { currentShot: 'bowl' });
    const slate = await take('F001.JPG', 300, { codes: [slateOf('mug')] });
    expect(slate).toMatchObject({ shot: 'mug', slate: { code: 'slate.slate-from-here' } });
    expect((await job()).currentShot).toBe('bowl');
  });

  test('a start and a register made anew change nothing and heed nothing twice', async () => {
    const told = async (): Promise<Told[]> =>
      (await station.frames()).map(({ name, shot, purpose, slate }) => ({ name, shot, purpose, slate }));
    const before = await told();
    const current = (await job()).currentShot;
    await station.stop();
    const { stdout } = await run(process.execPath, [binary, 'verify', '--rebuild', '--home', home, '--json']);
    expect(JSON.parse(stdout)).toMatchObject({ same: true });
    station = await startStation(home);
    const places = (frames: readonly Told[]): unknown => frames.map(({ slate: _, ...rest }) => rest);
    expect(places(await told())).toEqual(places(before));
    // The register was made anew: what was seen in the pictures is seen again, and heeded by nobody.
    const looked = await eventually(
      'all are looked at again',
      async () => {
        const now = await told();
        const seen = (frames: readonly Told[]): number => frames.filter(({ slate }) => slate !== null).length;
        return seen(now) === seen(before) ? now : null;
      },
      90_000,
    );
    expect(places(looked)).toEqual(places(before));
    expect((await job()).currentShot).toBe(current);
  });
});
