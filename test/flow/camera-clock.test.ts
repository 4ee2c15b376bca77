import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CameraEntry, cameraEntry, type Frame, seriesList } from '../../src/contract/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const run = promisify(execFile);
const hourMs = 3_600_000;

/** Exposures of a bracket around 1/128 s at f/8, and a frame a minute later; the camera knows its zone (Exif 2.31). */
const exposures = [
  { name: 'BRKT0001.JPG', time: '2026:10:01 10:00:00', exposure: '1/128' },
  { name: 'BRKT0002.JPG', time: '2026:10:01 10:00:01', exposure: '1/64' },
  { name: 'BRKT0003.JPG', time: '2026:10:01 10:00:02', exposure: '1/256' },
  { name: 'BRKT0004.JPG', time: '2026:10:01 10:01:10', exposure: '1/128' },
] as const;

describe.skipIf(!hasProgram('curl'))('a camera whose clock goes wrong', () => {
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await fetch(`${station.ready.web}/api/v1/jobs`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code: 'QM-26', open: true }),
    });
    for (const exposure of exposures) await take(exposure);
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(home);
  });

  async function take(exposure: { name: string; time: string; exposure: string }): Promise<Frame> {
    const file = join(home, exposure.name);
    await sharp({ create: { width: 96, height: 64, channels: 3, background: '#557799' } })
      .jpeg()
      .withExif({
        IFD2: {
          DateTimeOriginal: exposure.time,
          OffsetTimeOriginal: '+00:00',
          ExposureTime: exposure.exposure,
          FNumber: '8/1',
          ISOSpeedRatings: '100',
        },
      })
      .toFile(file);
    expect((await curlUpload(station, file, `/${exposure.name}`)).code).toBe(0);
    return eventually(`${exposure.name} is read`, async () =>
      (await station.frames()).find(({ name, times }) => name === exposure.name && times.judged !== null),
    );
  }

  async function setClock(offsetMs: number, since: 'always' | 'now'): Promise<CameraEntry> {
    const answer = await fetch(`${station.ready.web}/api/v1/cameras/cam1`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ clock: { offsetMs, since } }),
    });
    return cameraEntry.parse(await answer.json());
  }

  const shutters = async (): Promise<(string | null)[]> =>
    (await station.frames()).map(({ times }) => times.shutter);

  test('its frames stand where it says, until somebody knows better', async () => {
    expect(await shutters()).toEqual([
      '2026-10-01T10:00:00.000Z',
      '2026-10-01T10:00:01.000Z',
      '2026-10-01T10:00:02.000Z',
      '2026-10-01T10:01:10.000Z',
    ]);
  });

  test('the three exposures in steps of one stop are a bracket', async () => {
    const answer = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/series`);
    const { series } = seriesList.parse(await answer.json());
    const frames = (await station.frames()).slice(0, 3).map(({ id }) => id);
    expect(series).toEqual([{ kind: 'bracket', camera: 'cam1', frames, stepEv: 1 }]);
  });

  test('a clock put right afterwards moves all of its frames', async () => {
    expect(await setClock(-hourMs, 'always')).toMatchObject({ clockOffsetMs: -hourMs });
    expect((await shutters())[0]).toBe('2026-10-01T09:00:00.000Z');
  });

  test('one put right from now on leaves earlier frames where they are', async () => {
    expect(await setClock(0, 'now')).toMatchObject({ clockOffsetMs: 0 });
    expect((await shutters())[0]).toBe('2026-10-01T09:00:00.000Z');
    const later = await take({ name: 'BRKT0005.JPG', time: '2026:10:01 11:00:00', exposure: '1/128' });
    expect(later.times.shutter).toBe('2026-10-01T11:00:00.000Z');
  });

  test('a century and no more is believed of a clock', async () => {
    const century = 100 * 366 * 86_400_000;
    const status = async (offsetMs: number): Promise<number> => {
      const body = JSON.stringify({ clock: { offsetMs, since: 'now' } });
      const headers = { 'content-type': 'application/json' };
      return (await fetch(`${station.ready.web}/api/v1/cameras/cam1`, { method: 'PATCH', headers, body }))
        .status;
    };
    expect([await status(century), await status(century + 1), await status(0)]).toEqual([200, 400, 200]);
  });

  test('after a start, and in a register made anew, the frames stand where they stood', async () => {
    const before = await shutters();
    await station.stop();
    const { stdout } = await run(process.execPath, [binary, 'verify', '--rebuild', '--home', home, '--json']);
    expect(JSON.parse(stdout)).toMatchObject({ same: true });
    station = await startStation(home);
    expect(await shutters()).toEqual(before);
  });
});
