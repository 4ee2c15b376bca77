import { execFile } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { sentence } from '../../src/words/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { type MadeFrame, madeRaw } from './made-raw.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);

describe.skipIf(!hasProgram('curl'))('frames are judged by their pixels over the real station', () => {
  let home: string;
  let station: RunningStation;
  const frames = new Map<string, Frame>();
  const made: Readonly<Record<string, MadeFrame>> = {
    'A0001.DNG': { sigmaPx: 0.8, ev: 0 },
    'A0002.DNG': { sigmaPx: 3, ev: 0 },
    'A0003.DNG': { sigmaPx: 0.8, ev: 2.5 },
  };

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    for (const [name, facts] of Object.entries(made)) {
      const file = join(home, name);
      await writeFile(file, madeRaw(facts));
      expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
      frames.set(name, await judged(name));
    }
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  function judged(name: string): Promise<Frame> {
    return eventually(`${name} is judged`, async () =>
      (await station.frames()).find(
        (frame) => frame.name === name && frame.readings.headroomStops !== undefined,
      ),
    );
  }

  async function send(method: string, path: string, body: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  }

  test('the width of edges is the one that the blur has made, and the verdict follows from it', () => {
    for (const [name, { sigmaPx, ev }] of Object.entries(made)) {
      if (ev > 0) continue;
      // 10-90 % of a Gaussian edge: 2.5631 sigma.
      expect(Math.abs((frames.get(name)?.readings.edgeWidthPx ?? 0) / (2.5631 * sigmaPx) - 1)).toBeLessThan(
        0.05,
      );
    }
    expect(frames.get('A0001.DNG')?.verdicts.sharp).toMatchObject({
      judgement: 'good',
      figure: { unit: 'px' },
    });
    expect(frames.get('A0002.DNG')?.verdicts.sharp.judgement).toBe('bad');
    const [finding] = frames.get('A0002.DNG')?.verdicts.sharp.findings ?? [];
    expect(sentence(finding ?? { code: '', args: {} })).toMatch(/^(Soft|Out of focus): edges 7\.\d px wide/);
  });

  test('lost light is found, and what is free is said in stops', () => {
    expect(frames.get('A0001.DNG')?.verdicts.exposed.judgement).toBe('good');
    // The brightest lies at 0.28 of saturation: log2(1 / 0.28) = 1.84 stops below it.
    expect(frames.get('A0001.DNG')?.readings.headroomStops).toBeCloseTo(1.84, 1);
    const over = frames.get('A0003.DNG');
    expect(over?.verdicts.exposed).toMatchObject({ judgement: 'bad', figure: { unit: '%' } });
    // The squares take a quarter of the picture.
    expect(Math.abs((over?.readings.saturatedPercent ?? 0) - 25)).toBeLessThan(2);
  });

  test('limits and the reference of a person count at once, and hold over a start', async () => {
    const [sharp, soft, over] = [...frames.values()];
    expect((await send('POST', '/jobs', { code: 'QM-1', open: true })).status).toBe(201);
    expect((await send('POST', '/jobs/QM-1/shots', { name: 'Squares' })).ok).toBe(true);
    const shots = (await (await fetch(`${station.ready.web}/api/v1/jobs/QM-1`)).json()) as {
      shots: { id: string }[];
    };
    const id = shots.shots[0]?.id ?? '';
    for (const frame of [sharp, soft, over]) {
      expect((await send('PATCH', `/frames/${frame?.id}`, { job: 'QM-1', shot: id })).ok).toBe(true);
    }
    expect((await send('PATCH', `/jobs/QM-1/shots/${id}`, { reference: sharp?.id })).ok).toBe(true);
    const held = await station.frame(over?.id ?? '');
    // Two and a half stops more light, where none is lost.
    expect(held.readings.lightEv).toBeCloseTo(2.5, 1);
    const wide = { tolerances: { edgeWidthPx: { good: 9, bad: 12 } } };
    expect((await send('PATCH', '/jobs/QM-1', wide)).ok).toBe(true);
    const eased = await station.frame(soft?.id ?? '');
    expect(eased.verdicts.sharp.findings.map(({ code }) => code)).toEqual(['sharp.softer-than-reference']);
    await station.stop();
    station = await startStation(home);
    const again = await station.frame(soft?.id ?? '');
    expect(again.verdicts.sharp).toEqual(eased.verdicts.sharp);
    expect((await station.frame(over?.id ?? '')).readings.lightEv).toBe(held.readings.lightEv);
  });

  test('the command says the same of the same file, and its exit code is no where one is bad', async () => {
    const line = await run(process.execPath, [binary, 'judge', '--json', join(home, 'A0001.DNG')]);
    const told = JSON.parse(line.stdout) as { readings: { sharp: { atSpot: { widthPx: number } } } };
    expect(told.readings.sharp.atSpot.widthPx).toBe(frames.get('A0001.DNG')?.readings.edgeWidthPx);
    await expect(run(process.execPath, [binary, 'judge', join(home, 'A0002.DNG')])).rejects.toMatchObject({
      code: 1,
    });
    const withoutOne = [binary, 'judge', '--reference', join(home, 'none.JPG'), join(home, 'A0001.DNG')];
    await expect(run(process.execPath, withoutOne)).rejects.toMatchObject({
      code: 3,
      stdout: expect.stringContaining('A0001.DNG'),
      stderr: expect.stringContaining('none.JPG'),
    });
    await expect(run(process.execPath, [binary, 'judge', '--spot', '5', 'x'])).rejects.toMatchObject({
      code: 2,
    });
  });
});
