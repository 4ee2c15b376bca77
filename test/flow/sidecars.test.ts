import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ExifTool } from 'exiftool-vendored';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** Sidecars out and in over the real station; ExifTool is the other program. */
describe.skipIf(!hasProgram('curl'))('sidecars over the real station', () => {
  const tool = new ExifTool();
  let home: string;
  let station: RunningStation;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await send('POST', '/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    await send('POST', '/jobs/QM-26/shots', { name: 'Mug' });
    const picture = sharp({ create: { width: 64, height: 48, channels: 3, background: '#848484' } });
    await upload('QMST0001.JPG', await picture.jpeg().toBuffer());
  });

  afterAll(async () => {
    await tool.end();
    await station.stop();
    await removeHome(home);
  });

  function send(method: string, path: string, body: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  }

  async function upload(name: string, bytes: Uint8Array): Promise<void> {
    const folder = join(home, 'to-send');
    await mkdir(folder, { recursive: true });
    await writeFile(join(folder, name), bytes);
    expect((await curlUpload(station, join(folder, name), `/${name}`)).code).toBe(0);
  }

  async function frame(): Promise<Frame> {
    const [first] = await station.frames();
    if (first === undefined) throw new Error('expected a frame');
    return first;
  }

  const mark = async (value: string): Promise<void> => {
    expect((await send('PATCH', `/frames/${(await frame()).id}`, { mark: value })).status).toBe(200);
  };
  const folder = (): string => join(home, 'jobs/QM-26/sidecars/cam1');
  const tags = async (name: string): Promise<Readonly<Record<string, unknown>>> => ({
    ...(await tool.readRaw(join(folder(), name), { readArgs: ['-XMP:all', '-n'] })),
  });
  const rated = (rating: number): Promise<true> =>
    eventually(`the sidecar says ${rating}`, async () =>
      (await tags('QMST0001.xmp').catch(() => ({ Rating: null }))).Rating === rating ? true : undefined,
    );

  test('a mark is in the sidecar, beside the originals and not among them, and follows what the job is called and what is taken back', async () => {
    await mark('hero');
    await rated(5);
    expect(await tags('QMST0001.xmp')).toMatchObject({ Title: 'Mug', Event: 'Autumn catalogue' });
    expect(await readdir(join(home, 'jobs/QM-26/originals/cam1'))).toEqual(['QMST0001.JPG']);
    await send('PATCH', '/jobs/QM-26', { title: 'Winter catalogue' });
    await eventually('the job’s new title is in it', async () =>
      (await tags('QMST0001.xmp')).Event === 'Winter catalogue' ? true : undefined,
    );
    await send('POST', '/undo', {});
    await send('POST', '/undo', {});
    await rated(0);
  });

  test('what another program wrote into it is kept when the mark changes', async () => {
    const writeArgs = ['-XMP-xmp:Rating=3', '-overwrite_original'];
    await tool.write(join(folder(), 'QMST0001.xmp'), {}, { writeArgs });
    await mark('alternate');
    await rated(2);
    expect((await tags('QMST0001.aside-1.xmp')).Rating).toBe(3);
  });

  test('a sidecar that comes in later than the mark is kept as it is, told beside the mark, and changes nothing', async () => {
    expect((await frame()).sidecar).toBeNull();
    const made = join(home, 'made.xmp');
    // ExifTool changes files; what it makes of an empty packet is all its own.
    await writeFile(made, '<x:xmpmeta xmlns:x="adobe:ns:meta/"/>');
    const writeArgs = [
      '-XMP-xmp:Rating=4',
      '-XMP-dc:Creator=A. Nobody',
      '-XMP-dc:Title=Blue mug',
      '-XMP-dc:Rights=None',
    ];
    await tool.write(made, {}, { writeArgs });
    const bytes = await readFile(made);
    await upload('QMST0001.xmp', bytes);
    const told = await eventually('the sidecar is told', async () => {
      const now = await frame();
      return now.sidecar === null ? undefined : now;
    });
    expect(told).toMatchObject({
      mark: 'alternate',
      suggestedMark: null,
      sidecar: {
        name: 'QMST0001.xmp',
        rating: 4,
        mark: 'select',
        differs: true,
        title: 'Blue mug',
        description: null,
        creator: 'A. Nobody',
        rights: 'None',
      },
    });
    expect(await readFile(join(home, 'jobs/QM-26/originals/cam1/QMST0001.xmp'))).toEqual(bytes);
    await rated(2);
    await mark('alternate');
    await eventually('the person’s word is the later one', async () =>
      (await frame()).sidecar?.differs === false ? true : undefined,
    );
  });

  test('those that were deleted come back at the next start, and verify knows nothing of them', async () => {
    await station.stop();
    await rm(folder(), { recursive: true });
    const verified = await runProgram(process.execPath, [binary, 'verify', '--home', home]);
    expect(verified.code).toBe(0);
    station = await startStation(home);
    await rated(2);
  });
});
