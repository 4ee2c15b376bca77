import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A camera that never believes it was answered, and one whose line breaks again and again. */
const binary = join(import.meta.dirname, '../../bin/setside.mjs');
let home: string;
let station: RunningStation;

beforeEach(async () => {
  home = await newHome();
  station = await startStation(home);
});

afterEach(async () => {
  await station.stop();
  await removeHome(home);
});

const incoming = (): Promise<string[]> => readdir(join(home, 'incoming'));

async function heldByPage(): Promise<unknown> {
  const answer = await fetch(`${station.ready.web}/api/v1/station`);
  return ((await answer.json()) as { incoming: unknown }).incoming;
}

async function verify(): Promise<{ fine: boolean; incoming: unknown }> {
  const run = await runProgram(process.execPath, [binary, 'verify', '--home', home, '--json']);
  return JSON.parse(run.stdout);
}

test.skipIf(!hasProgram('curl'))(
  'K2.10 what is sent again and again takes room once, and what only an attempt holds stays and is told',
  async () => {
    const { bytes } = await renderFrame({ sizeMegapixels: 0.5, noiseSeed: 21 });
    const whole = join(home, 'whole.dng');
    const cut = join(home, 'cut.dng');
    const other = join(home, 'other.dng');
    await writeFile(whole, bytes);
    await writeFile(cut, bytes.subarray(0, 200_000));
    await writeFile(other, Buffer.concat([bytes.subarray(0, 150_000), Buffer.alloc(50_000, 7)]));
    // Cut twice in different places and with bytes that no later upload has: answered 426 or 451, and not kept.
    for (const file of [cut, other]) expect((await curlUpload(station, file, '/A.DNG')).code).not.toBe(0);
    for (let times = 0; times < 4; times++) expect((await curlUpload(station, whole, '/A.DNG')).code).toBe(0);
    await eventually('only what is nowhere else is left', async () => (await incoming()).length === 1);
    const [left] = await incoming();
    expect((await readFile(join(home, 'incoming', left ?? ''))).equals(await readFile(other))).toBe(true);
    const held = [{ why: 'waiting', files: 1, bytes: 200_000 }];
    expect(await heldByPage()).toEqual(held);
    expect(await verify()).toMatchObject({ fine: true, incoming: held });
    const frames = await station.frames();
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    // The attempt that no upload begins with may be another picture: it stays named, in a frame of its own.
    const files = frames.map((frame) => frame.files);
    expect(files).toHaveLength(2);
    expect(files).toContainEqual([expect.objectContaining({ state: 'whole', sha256 })]);
    expect(files).toContainEqual([expect.objectContaining({ state: 'broken-off', size: 200_000 })]);
  },
);
