import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { station as stationSchema } from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

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
