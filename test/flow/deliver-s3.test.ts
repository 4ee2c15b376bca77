import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Delivery, delivery } from '../../src/contract/index.ts';
import { S3Stub } from '../interop/s3-stub.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** The real station sends to a stub of S3 written from the Amazon S3 API Reference (from memory), and is killed meanwhile. */
let home: string;
let station: RunningStation;
const stub = new S3Stub();
/** Undoes each step of the beginning that was done, the last first. */
const undo: (() => Promise<void>)[] = [];

beforeAll(async () => {
  home = await newHome();
  undo.push(() => removeHome(home));
  const endpoint = await stub.start();
  undo.push(() => stub.stop());
  station = await startStation(home);
  // The one that runs by then.
  undo.push(() => station.stop());
  await send('POST', '/jobs', { code: 'QM-26', open: true });
  await send('PATCH', '/jobs/QM-26', { naming: '{job}_{counter}' });
  const file = join(home, 'QMST0001.JPG');
  const background = { r: 110, g: 120, b: 60 };
  const picture = sharp({ create: { width: 96, height: 64, channels: 3, background } });
  writeFileSync(file, await picture.jpeg().toBuffer());
  expect((await curlUpload(station, file, '/QMST0001.JPG')).code).toBe(0);
  const [frame] = await eventually('a picture', async () => {
    const frames = await station.frames();
    return frames.every(({ picture: shown }) => shown.state === 'rendered') && frames.length === 1 && frames;
  });
  await send('PATCH', `/frames/${frame?.id}`, { mark: 'hero' });
  const { bucket, accessKeyId, secret } = stub;
  const place = { kind: 's3', bucket, region: 'eu-north-1', endpoint, pathStyle: true, accessKeyId };
  expect((await send('PUT', '/destinations/vault', { place, secret })).status).toBe(201);
});
afterAll(async () => {
  for (const step of undo.reverse()) await step();
});

function send(method: string, path: string, body?: unknown): Promise<Response> {
  return fetch(`${station.ready.web}/api/v1${path}`, {
    method,
    headers: body === undefined ? {} : { 'content-type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
}

test.skipIf(!hasProgram('curl'))(
  'killed in the middle of an upload in parts, the next start goes on with it: no part twice, none left behind',
  async () => {
    let isHeld = true;
    // 1400 x 1400 pixels of three samples of two bytes are more than one part of 8 MiB: the second does not get through.
    stub.cutsBefore = (call) => isHeld && call === 'PUT part 2';
    const specification = {
      version: 1,
      title: 'Killed',
      size: { kind: 'exact', widthPx: 1400, heightPx: 1400 },
      enlarge: true,
      format: { kind: 'tiff', depth: 16, compression: 'none' },
      destination: { kind: 'named', name: 'vault' },
    };
    const begun = await send('POST', '/deliveries', { job: 'QM-26', specification });
    const { id, folder } = delivery.parse(await begun.json());
    await eventually('the second part is tried', async () => stub.calls.includes('PUT part 2'), 120_000);
    expect(stub.uploads.size).toBe(1);
    await station.kill();
    isHeld = false;
    station = await startStation(home);
    const done = await eventually<Delivery>(
      'the delivery is done',
      async () => {
        const told = delivery.parse(await (await send('GET', `/deliveries/${id}`)).json());
        return told.state === 'done' && told;
      },
      120_000,
    );
    expect(done).toMatchObject({ filesSent: 1, notSent: [] });
    const count = (call: string): number => stub.calls.filter((each) => each === call).length;
    expect([count('POST begin'), count('PUT part 1')]).toEqual([1, 1]);
    expect(stub.uploads.size).toBe(0);
    const names = readdirSync(folder);
    expect([...stub.objects.keys()].sort()).toEqual(names.map((name) => `QM-26/Killed/${name}`).sort());
    for (const name of names)
      expect(stub.objects.get(`QM-26/Killed/${name}`)?.bytes.equals(readFileSync(join(folder, name)))).toBe(
        true,
      );
  },
  300_000,
);
