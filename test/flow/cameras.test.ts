import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type CameraEntry,
  cameraEntry,
  type Frame,
  station as stationShape,
} from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { FtpTalk } from './ftp-talk.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

describe.skipIf(!hasProgram('curl'))('a camera that sends raw and JPEG', () => {
  let station: RunningStation;
  let folder: string;
  let raw: string;
  let jpeg: string;
  let sidecar: string;

  beforeAll(async () => {
    const home = await newHome();
    // A hundredth of a minute: a silence that a test can wait for.
    await writeFile(
      join(home, 'setside.json'),
      JSON.stringify({ silentAfterMinutes: 0.01, keepAwake: false }),
    );
    station = await startStation(home);
    folder = await mkdtemp(join(tmpdir(), 'setside-pair-'));
    raw = join(folder, 'raw.dng');
    jpeg = join(folder, 'jpeg.jpg');
    sidecar = join(folder, 'notes.xmp');
    await writeFile(raw, (await renderFrame({ sizeMegapixels: 0.2 })).bytes);
    await sharp({ create: { width: 900, height: 600, channels: 3, background: '#557799' } })
      .jpeg()
      .toFile(jpeg);
    await writeFile(sidecar, '<x:xmpmeta xmlns:x="adobe:ns:meta/"/>\n');
  });

  afterAll(async () => {
    await station.stop();
    await removeHome(station.home);
    await rm(folder, { recursive: true, force: true });
  });

  const upload = async (file: string, name: string): Promise<void> => {
    const ran = await curlUpload(station, file, `/DCIM/100PAIR_/${name}`);
    expect(ran.code, ran.stderr).toBe(0);
  };
  const framesOf = async (stem: string): Promise<Frame[]> =>
    (await station.frames()).filter(({ files }) => files.some(({ name }) => name.startsWith(stem)));
  const renderedFrom = (stem: string, source: 'raw' | 'raster'): Promise<Frame> =>
    eventually(`${stem} is shown from its ${source}`, async () =>
      (await framesOf(stem)).find(({ picture }) => picture.state === 'rendered' && picture.source === source),
    );
  const camera = async (): Promise<CameraEntry | undefined> =>
    stationShape.parse(await (await fetch(`${station.ready.web}/api/v1/station`)).json()).cameras[0];
  const patch = (path: string, body: unknown): Promise<Response> =>
    fetch(`${station.ready.web}${path}`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });

  test('raw, JPEG and sidecar of one stem are one frame, shown from the raw', async () => {
    await upload(raw, 'PAIR0001.DNG');
    await upload(jpeg, 'PAIR0001.JPG');
    await upload(sidecar, 'PAIR0001.XMP');
    const frame = await renderedFrom('PAIR0001', 'raw');
    expect(await framesOf('PAIR0001')).toHaveLength(1);
    expect(frame.files.map(({ name }) => name).sort()).toEqual([
      'PAIR0001.DNG',
      'PAIR0001.JPG',
      'PAIR0001.XMP',
    ]);
  });

  test('a JPEG that comes first is shown at once, and the raw takes its place', async () => {
    await upload(jpeg, 'PAIR0002.JPG');
    await renderedFrom('PAIR0002', 'raster');
    await upload(raw, 'PAIR0002.DNG');
    await renderedFrom('PAIR0002', 'raw');
    expect(await framesOf('PAIR0002')).toHaveLength(1);
  });

  test('another stem is another frame', async () => {
    await upload(jpeg, 'PAIR0003.JPG');
    await upload(raw, 'PAIR0004.DNG');
    expect(await framesOf('PAIR0003')).toHaveLength(1);
    expect((await framesOf('PAIR0004'))[0]?.files).toHaveLength(1);
  });

  test('what a camera sends is said by PATCH, told with the station, and outlives a restart', async () => {
    const answer = await patch('/api/v1/cameras/cam1', { expects: 'both' });
    expect([answer.status, cameraEntry.parse(await answer.json()).expects]).toEqual([200, 'both']);
    expect((await patch('/api/v1/cameras/nobody', { expects: 'raw' })).status).toBe(404);
    expect((await patch('/api/v1/cameras/cam1', { expects: 'film' })).status).toBe(400);
    await station.stop();
    station = await startStation(station.home);
    expect((await camera())?.expects).toBe('both');
  });

  test('a frame is moved to the tray by PATCH, and to no job that does not exist', async () => {
    const [frame] = await framesOf('PAIR0004');
    expect((await patch(`/api/v1/frames/${frame?.id}`, { job: 'unsorted' })).status).toBe(200);
    const refused = await patch(`/api/v1/frames/${frame?.id}`, { job: 'NOWHERE' });
    expect(refused.status).toBe(400);
    expect(await refused.json()).toMatchObject({ code: 'no-job' });
  });

  test('a camera that falls silent while shooting is spoken of, until it is heard again or put off', async () => {
    await upload(raw, 'PAIR0005.DNG');
    const silent = await eventually('the silence is told', async () => (await camera())?.trouble);
    expect(silent.code).toBe('line.camera-silent');
    const talk = await FtpTalk.logIn(station);
    await eventually('connected, it is not silent', async () => (await camera())?.trouble === null);
    await talk.ask('QUIT');
    talk.close();
    await eventually('the silence is told again', async () => (await camera())?.trouble);
    await patch('/api/v1/cameras/cam1', { quiet: true });
    expect((await camera())?.trouble).toBeNull();
  });
});
