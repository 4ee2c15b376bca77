import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { job as jobSchema, station as stationSchema } from '../../src/contract/index.ts';
import { renderFrame, runStandIn } from '../../src/stand-in/index.ts';
import { demoJob } from '../../src/station/demo-job.ts';
import { DemoPhotographer } from '../../src/station/demo-photographer.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

let folder: string;
let source: string;
let running: RunningStation | null = null;

beforeAll(async () => {
  folder = await newHome();
  source = join(folder, 'source.dng');
  await writeFile(source, (await renderFrame({ sizeMegapixels: 0.1 })).bytes);
});
afterEach(() => running?.kill());
afterAll(() => removeHome(folder));

async function start(home: string, ...args: string[]): Promise<RunningStation> {
  running = await startStation(home, args);
  return running;
}

async function openJob({ ready }: RunningStation): Promise<string | null> {
  const answer = await fetch(`${ready.web}/api/v1/station`);
  return stationSchema.parse(await answer.json()).job?.code ?? null;
}

async function upload(station: RunningStation, name: string): Promise<void> {
  expect((await curlUpload(station, source, `/DCIM/100SETSD/${name}`)).code).toBe(0);
}

test.skipIf(!hasProgram('curl'))('the demo’s job ends with the demo, in whatever way it ends', async () => {
  const home = join(folder, 'demo');
  await mkdir(home);
  const demo = await start(home, '--demo');
  expect(await openJob(demo)).toBe('QM-26');
  await upload(demo, 'POTS0001.DNG');
  await demo.stop();
  const plain = await start(home);
  expect(await openJob(plain)).toBeNull();
  await plain.stop();
  const killed = await start(home, '--demo');
  await killed.kill();
  const afterKill = await start(home);
  expect(await openJob(afterKill)).toBeNull();
  await upload(afterKill, 'REAL0001.DNG');
  expect(await readdir(join(home, 'jobs/unsorted/originals/cam1/DCIM/100SETSD'))).toEqual(['REAL0001.DNG']);
  await afterKill.stop();
  // Now somebody's own frame lies there.
  await expect(start(home, '--demo')).rejects.toThrow(/holds frames that are not of the demo[\s\S]*--home/);
});

test('the demo keeps out of the home that the environment names', async () => {
  const environment = { SETSIDE_HOME: join(folder, 'work'), HOME: folder };
  running = await startStation(null, ['--demo'], environment);
  expect(running.ready.home).toBe(join(folder, 'Setside-demo'));
});

test('who plays the photographer goes on to each shot before its first frame, and says which frames are target and reference', async () => {
  const home = join(folder, 'played');
  const station = await start(home);
  const api = `${station.ready.web}/api/v1`;
  const send = (method: string, path: string, body: object): Promise<Response> =>
    fetch(`${api}${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  expect((await send('POST', '/jobs', { code: demoJob.code, open: true })).status).toBe(201);
  const list = { shots: demoJob.shots.map(({ id, name }) => ({ id, name })) };
  expect((await send('POST', `/jobs/${demoJob.code}/shots/import`, list)).status).toBe(200);
  const photographer = new DemoPhotographer(station.ready.web, new AbortController().signal);
  const shotOf = new Map<string, string>();
  await runStandIn({
    host: '127.0.0.1',
    port: station.ready.ftp ?? 0,
    accounts: station.ready.cameras,
    paceBytesPerSecond: Number.POSITIVE_INFINITY,
    frames: 4,
    shots: ['mug', 'jug'],
    intervalMs: 0,
    cacheDir: join(folder, 'played-cache'),
    seed: 26,
    sizeMegapixels: 0.05,
    threads: 0,
    now: Date.now,
    signal: new AbortController().signal,
    beforeShot: (shot) => photographer.goOn(shot),
    onProgress: ({ code, args }) => {
      if (code !== 'stand-in.shot') return;
      shotOf.set(String(args.name), String(args.shot));
      photographer.pressed(String(args.name), String(args.shot), String(args.purpose));
    },
  });
  const frames = await eventually('four frames', async () => {
    const all = await station.frames();
    return all.length === 4 && all;
  });
  expect(frames.map(({ name, shot }) => [name, shot])).toEqual([...shotOf]);
  for (const { name, id } of frames) await photographer.framesCame(name, id);
  expect((await station.frames()).map(({ purpose }) => purpose)).toEqual([
    'target',
    'picture',
    'target',
    'picture',
  ]);
  const { shots } = jobSchema.parse(await (await fetch(`${api}/jobs/${demoJob.code}`)).json());
  expect(shots.slice(0, 2).map(({ reference }) => reference)).toEqual(
    [1, 3].map((index) => frames[index]?.id),
  );
  const said = (await station.frames()).flatMap(({ id, remarks }) => remarks.map(({ by }) => [id, by.name]));
  expect(said).toEqual([[frames[1]?.id, 'Client, on the set']]);
});
