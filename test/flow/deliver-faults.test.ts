import { mkdtemp, readdir, readFile, rm, rmdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Delivery, delivery } from '../../src/contract/index.ts';
import { curlUpload, hasProgram, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Mounting takes root's rights; without them, or elsewhere than on Linux, what needs it is skipped by name. */
const canMount =
  process.platform === 'linux' && process.getuid?.() === 0 && hasProgram('mount') && (await tryMount());

async function tryMount(): Promise<boolean> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-mount-'));
  const mounted = (await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder])).code === 0;
  if (mounted) await runProgram('umount', [folder]);
  await rmdir(folder);
  return mounted;
}

/** What goes wrong while files are handed over: nothing is lost, nothing half is left, and it is said what to do. */
describe.skipIf(!hasProgram('curl'))('deliveries that meet trouble', () => {
  let home: string;
  let place: string;
  let station: RunningStation;

  beforeEach(async () => {
    home = await newHome();
    place = await mkdtemp(join(tmpdir(), 'setside-second-'));
    station = await startStation(home, ['--copy', place]);
    await send('POST', '/jobs', { code: 'QM-26', open: true });
    await upload('QMST0001.JPG', 1);
    await upload('QMST0002.JPG', 2);
    // What they are instead is told where they are not rendered in time.
    const states = async () => (await station.frames()).map(({ picture }) => picture.state);
    await expect.poll(states, { timeout: 60_000 }).toEqual(['rendered', 'rendered']);
  });

  afterEach(async () => {
    await station.stop();
    await runProgram('umount', ['-l', deliveries()]);
    await removeHome(home);
    await rm(place, { recursive: true });
  });

  const deliveries = (): string => join(home, 'jobs/QM-26/deliveries');
  const hidden = async (): Promise<string[]> =>
    (await readdir(deliveries(), { recursive: true })).filter((name) =>
      /(^|\/)\.|\.part$|rendered/.test(name),
    );

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function upload(name: string, seed: number): Promise<void> {
    const file = join(home, name);
    // Noise does not become small in any format.
    const noise = Buffer.from(Uint8Array.from({ length: 900 * 600 * 3 }, (_, at) => (at * at * seed) >> 7));
    const raw = { width: 900, height: 600, channels: 3 } as const;
    await writeFile(file, await sharp(noise, { raw }).jpeg({ quality: 95 }).toBuffer());
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
    await rm(file);
  }

  async function begin(edge = 900): Promise<Response> {
    const specification = {
      version: 1,
      title: 'Large',
      size: { kind: 'long-edge', px: edge },
      enlarge: true,
      format: { kind: 'tiff', depth: 16, compression: 'none' },
      naming: '{name}',
    };
    const frames = (await station.frames()).map(({ id }) => id);
    return send('POST', '/deliveries', { job: 'QM-26', specification, frames });
  }
  const begun = async (edge?: number): Promise<Delivery> => delivery.parse(await (await begin(edge)).json());
  const when = (id: string, state: Delivery['state']): Promise<Delivery> =>
    eventually(`a delivery that is ${state}`, async () => {
      const told = delivery.parse(await (await send('GET', `/deliveries/${id}`)).json());
      return told.state === state && told;
    });
  const codes = ({ files, missing }: Delivery): string[] => [
    ...files.flatMap(({ findings }) => findings.map(({ code }) => code)),
    ...missing.map(({ finding }) => finding.code),
  ];

  test('a damaged or lost original is made from its copy and named; with a bad copy it is not made', async () => {
    await eventually('copies', async () => {
      const frames = await station.frames();
      return frames.every(({ files }) => files.every(({ places }) => places.length > 0));
    });
    const below = (await readdir(join(home, 'jobs'), { recursive: true })).filter((name) =>
      /QMST000/.test(name),
    );
    const first = below.find((name) => name.endsWith('QMST0001.JPG')) ?? 'none';
    const original = join(home, 'jobs', first);
    const good = await when((await begun()).id, 'done');
    const bytes = await readFile(original);
    const other = Buffer.from(bytes);
    other[other.length >> 1] = (other[other.length >> 1] ?? 0) ^ 1;

    await writeFile(original, other);
    const damaged = await when((await begun()).id, 'done');
    expect(codes(damaged)).toEqual(['deliver.from-copy']);
    expect(damaged.files.map(({ sha256 }) => sha256)).toEqual(good.files.map(({ sha256 }) => sha256));
    await rm(original);
    expect(codes(await when((await begun()).id, 'done'))).toEqual(['deliver.from-copy']);

    await writeFile(original, other);
    await writeFile(join(place, 'jobs', first), other);
    const lost = await when((await begun()).id, 'done');
    expect(codes(lost)).toEqual(['deliver.damaged-original']);
    expect(lost.files).toHaveLength(1);
    await writeFile(original, bytes);
  });

  test.skipIf(!canMount)(
    'a disk that is full in the middle: it waits and says so, nothing half lies there, and goes on when there is room',
    async () => {
      await send('PATCH', '/jobs/QM-26', {
        metadata: JSON.stringify({ version: 1, title: 'x', all: { caption: 'words' } }),
      });
      await runProgram('mkdir', [deliveries()]);
      // One file of 900 x 600 in 16 bits has 3.2 MB, and as much lies beside it while it is made.
      await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=8m', 'tmpfs', deliveries()]);
      const { id, folder } = await begun();
      const waiting = await when(id, 'paused');
      expect(waiting).toMatchObject({ finding: { code: 'deliver.cannot-write', args: { why: 'ENOSPC' } } });
      expect(waiting.filesMissing).toBe(0);
      expect(await readdir(folder)).toHaveLength(waiting.filesMade);
      expect(await hidden()).toEqual([]);
      await runProgram('mount', ['-o', 'remount,size=40m', deliveries()]);
      expect((await send('PATCH', `/deliveries/${id}`, { state: 'running' })).status).toBe(200);
      expect(await when(id, 'done')).toMatchObject({ filesMade: 2, filesMissing: 0 });
    },
  );

  test.skipIf(!canMount)('a folder that cannot be written to is told before anything is made', async () => {
    await runProgram('mkdir', [deliveries()]);
    await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=1m,ro', 'tmpfs', deliveries()]);
    const refused = await begin();
    expect(refused.status).toBe(507);
    expect(await refused.json()).toMatchObject({ code: 'cannot-write-there' });
  });

  test('a file where the folder should be is told too', async () => {
    await writeFile(deliveries(), 'in the way');
    expect(await (await begin()).json()).toMatchObject({ code: 'cannot-write-there' });
    await rm(deliveries());
  });

  test('a delivery whose folder is taken away waits, and makes nothing elsewhere', async () => {
    const { id, folder } = await begun(6000);
    await rm(folder, { recursive: true });
    expect(await when(id, 'paused')).toMatchObject({ finding: { args: { why: 'ENOENT' } }, filesMissing: 0 });
    expect(await hidden()).toEqual([]);
  });

  test('what is ended, or killed, leaves no half file behind', async () => {
    const ended = await begun(6000);
    await eventually('work under way', async () => (await hidden()).length > 0);
    await send('PATCH', `/deliveries/${ended.id}`, { state: 'aborted' });
    await eventually('nothing hidden', async () => (await hidden()).length === 0);
    expect((await readdir(ended.folder)).every((name) => /^QMST000\d\.tif$/.test(name))).toBe(true);

    const killed = await begun(6000);
    await eventually('work under way', async () => (await hidden()).length > 0);
    await station.kill();
    expect(await hidden()).not.toEqual([]);
    station = await startStation(home, ['--copy', place]);
    await send('PATCH', `/deliveries/${killed.id}`, { state: 'aborted' });
    await eventually('nothing hidden', async () => (await hidden()).length === 0);
  });

  test('names that differ only in case or Unicode form get numbers, more pixels than there are are said', async () => {
    await upload('Caf\u00e9.JPG', 3);
    await upload('CAFE\u0301.JPG', 4);
    await eventually('four pictures', async () => {
      const frames = await station.frames();
      return frames.length === 4 && frames.every(({ picture }) => picture.state === 'rendered');
    });
    const done = await when((await begun(1000)).id, 'done');
    const names = (await readdir(done.folder)).filter((name) => name.endsWith('.tif'));
    expect(names).toHaveLength(4);
    expect(new Set(names.map((name) => name.normalize('NFC').toLowerCase())).size).toBe(4);
    expect(names.some((name) => name.endsWith('-2.tif'))).toBe(true);
    expect(new Set(codes(done))).toEqual(new Set(['deliver.enlarged']));
  });
});
