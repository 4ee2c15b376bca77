import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { actList, type Frame, strike } from '../../src/contract/index.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

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

/** The real command against the real station, as somebody with another computer would run it. */
async function rehearsed(): Promise<unknown> {
  const { hostname, port } = new URL(station.ftpUrl);
  const way = ['--host', hostname, '--port', port, '--user', station.user, '--password', station.password];
  const { stdout } = await run(process.execPath, [binary, 'stand-in', '--rehearse', ...way, '--json']);
  return JSON.parse(stdout);
}

const pictures = (): Promise<Frame[]> => station.frames();

test('a rehearsal’s picture is kept and set apart as a test, each time, and is no frame of the shoot', async () => {
  const made = await fetch(`${station.ready.web}/api/v1/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code: 'DAY', open: true }),
  });
  expect(made.status).toBe(201);
  for (const count of [1, 2]) {
    expect(await rehearsed()).toMatchObject({ ok: true });
    await eventually(`${count} are tests`, async () => {
      const frames = await pictures();
      return frames.length === count && frames.every(({ purpose }) => purpose === 'test') ? frames : null;
    });
  }
  const frames = await eventually('it is said of both', async () => {
    const now = await pictures();
    return now.every(({ slate }) => slate !== null) ? now : null;
  });
  expect(frames.map(({ slate }) => slate?.code)).toEqual(['slate.rehearsal', 'slate.rehearsal']);
  expect(frames.every(({ times }) => times.kept !== null)).toBe(true);
  // Nobody did it, so the first Undo is none of it.
  const acts = actList.parse(await (await fetch(`${station.ready.web}/api/v1/undo`)).json());
  expect(acts.acts.filter(({ what }) => what.code === 'slate.rehearsal')).toEqual([]);
  const check = strike.parse(await (await fetch(`${station.ready.web}/api/v1/strike?job=DAY`)).json());
  expect(check).toMatchObject({ frames: 0, cameras: [] });
  const sheet = await fetch(`${station.ready.web}/api/v1/jobs/DAY/contact-sheet.pdf`);
  expect(await sheet.json()).toMatchObject({ code: 'nothing-to-print' });
});
