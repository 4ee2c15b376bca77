import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { inspect, sourceOfBytes } from '../../src/formats/index.ts';
import {
  parseFaultOrder,
  runStandIn,
  type SentFrame,
  type StandInOptions,
  type StandInProgress,
} from '../../src/stand-in/index.ts';
import { type FakeStation, startFakeStation } from './stand-in-fake-station.ts';

let station: FakeStation;
let cacheDir: string;
let progress: StandInProgress[];

const startMs = Date.UTC(2026, 9, 1, 8, 0, 0);

beforeEach(async () => {
  station = await startFakeStation();
  cacheDir = mkdtempSync(join(tmpdir(), 'setside-stand-in-'));
  progress = [];
});

afterEach(async () => {
  await station.close();
  rmSync(cacheDir, { recursive: true, force: true });
});

function options(changes: Partial<StandInOptions> = {}): StandInOptions {
  return {
    host: '127.0.0.1',
    port: station.port,
    accounts: [{ user: 'cam1', password: 'secret' }],
    paceBytesPerSecond: Number.POSITIVE_INFINITY,
    frames: 1,
    intervalMs: 0,
    cacheDir,
    seed: 7,
    sizeMegapixels: 0.05,
    now: () => startMs,
    signal: new AbortController().signal,
    onProgress: (step) => progress.push(step),
    resendAfterMs: 0,
    shots: ['bowl'],
    threads: 0,
    ...changes,
  };
}

const names = (): string[] => [...station.files.keys()].map((path) => path.slice(path.lastIndexOf('/') + 1));
const stores = (): string[] => station.commands.filter((line) => line.startsWith('STOR'));

test('each file of a frame is sent in the order asked for, under one name', async () => {
  const { frames } = await runStandIn(options({ frames: 2, files: ['jpeg', 'raw', 'xmp'] }));
  expect(names()).toEqual([
    ...['QMST0001.JPG', 'QMST0001.DNG', 'QMST0001.XMP'],
    ...['QMST0002.JPG', 'QMST0002.DNG', 'QMST0002.XMP'],
  ]);
  for (const { path, sizeBytes, sha256, sent } of frames.flatMap(({ files }) => files)) {
    const held = station.files.get(path) ?? Buffer.alloc(0);
    expect([held.length, createHash('sha256').update(held).digest('hex'), sent]).toEqual([
      sizeBytes,
      sha256,
      true,
    ]);
  }
});

test('a burst fires within one second, sub-seconds apart, and the next waits for the interval', async () => {
  const { frames } = await runStandIn(options({ frames: 4, burst: 3 }));
  expect(frames.map(({ shutterMs }) => shutterMs - startMs)).toEqual([0, 333, 667, 0]);
  const moments = frames.map(({ files }) => takenAt(files[0]?.path ?? ''));
  expect(moments.map((moment) => moment - startMs)).toEqual([0, 333, 667, 0]);
});

test('several cameras send at the same time, each with its own prefix, serial number, counter and log-in', async () => {
  const told: SentFrame[] = [];
  const accounts = [
    { user: 'cam1', password: 'secret' },
    { user: 'cam2', password: 'secret' },
  ];
  const session = { cameras: 3, accounts, onFrame: (frame: SentFrame): void => void told.push(frame) };
  await runStandIn(options({ frames: 2, ...session }));
  expect(names().sort()).toEqual([
    ...['QM020001.DNG', 'QM020002.DNG', 'QM030001.DNG', 'QM030002.DNG'],
    ...['QMST0001.DNG', 'QMST0002.DNG'],
  ]);
  expect(told.map(({ camera, frame }) => `${camera} ${frame}`).sort()).toEqual([
    ...['QM-0001 1', 'QM-0001 2', 'QM-0002 1', 'QM-0002 2', 'QM-0003 1', 'QM-0003 2'],
  ]);
  expect(station.commands.filter((line) => line.startsWith('USER')).sort()).toEqual([
    'USER cam1',
    'USER cam1',
    'USER cam2',
  ]);
  expect(station.connections).toBe(3);
  const { frames } = await runStandIn(options(session));
  expect(frames.map(({ files }) => files[0]?.name)).toEqual(['QMST0003.DNG', 'QM020003.DNG', 'QM030003.DNG']);
});

test('one camera that is refused ends the session for all, and is named with what may be the reason', async () => {
  const accounts = [
    { user: 'cam1', password: 'secret' },
    { user: 'cam2', password: 'wrong' },
  ];
  await expect(runStandIn(options({ cameras: 2, accounts, frames: 1000 }))).rejects.toMatchObject({
    code: 'stand-in-refused',
    message: expect.stringMatching(/did not let in user cam2: .*password.*or it may not come by this door/),
    cure: expect.stringContaining('setside camera list'),
  });
});

test('a cut upload is sent again from the beginning by a camera that cannot resume', async () => {
  const { frames } = await runStandIn(
    options({ faults: [parseFaultOrder('cut=40')], afterBreak: 'again', paceBytesPerSecond: 500_000 }),
  );
  expect(stores()).toEqual(['STOR /DCIM/100SETSD/QMST0001.DNG', 'STOR /DCIM/100SETSD/QMST0001.DNG']);
  expect(station.commands.some((line) => /^(APPE|SIZE)/.test(line))).toBe(false);
  const [brokeOff] = progress.filter(({ code }) => code === 'stand-in.broke-off');
  const share = Number(brokeOff?.args.sentBytes) / (frames[0]?.files[0]?.sizeBytes ?? 0);
  expect(share).toBeGreaterThanOrEqual(0.4);
  expect(share).toBeLessThan(0.6);
  expect(station.files.get('/DCIM/100SETSD/QMST0001.DNG')?.length).toBe(frames[0]?.files[0]?.sizeBytes);
});

test('of several files of a frame a cut hits the largest, and says that it was ordered', async () => {
  await runStandIn(
    options({ files: ['jpeg', 'raw'], faults: [parseFaultOrder('cut')], paceBytesPerSecond: 500_000 }),
  );
  const broken = progress.filter(({ code }) => code === 'stand-in.broke-off');
  expect(broken.map(({ args }) => [args.name, args.why])).toEqual([['QMST0001.DNG', 'as ordered']]);
});

test('a duplicate is the same file a second time', async () => {
  await runStandIn(options({ frames: 2, faults: [parseFaultOrder('duplicate@2')] }));
  expect(stores()).toEqual([
    'STOR /DCIM/100SETSD/QMST0001.DNG',
    'STOR /DCIM/100SETSD/QMST0002.DNG',
    'STOR /DCIM/100SETSD/QMST0002.DNG',
  ]);
  const told = progress.filter(({ code }) => code.startsWith('stand-in.sent'));
  expect(told.map(({ code, args }) => [code, args.name])).toEqual([
    ['stand-in.sent', 'QMST0001.DNG'],
    ['stand-in.sent', 'QMST0002.DNG'],
    ['stand-in.sent-again', 'QMST0002.DNG'],
  ]);
});

test('a wrong clock is in the file, and the truth says by how much', async () => {
  const { frames } = await runStandIn(options({ frames: 2, faults: [parseFaultOrder('clock=-90@2')] }));
  expect(frames.map(({ clockAheadMs }) => clockAheadMs)).toEqual([0, -5_400_000]);
  expect(frames.map(({ shutterMs }) => shutterMs)).toEqual([startMs, startMs]);
  expect(frames.map(({ files }) => takenAt(files[0]?.path ?? '') - startMs)).toEqual([0, -5_400_000]);
});

test('gap and wrap are in the names, and the next session goes on behind them', async () => {
  const faults = ['gap=2@2', 'wrap@4'].map(parseFaultOrder);
  const { frames } = await runStandIn(options({ frames: 4, faults }));
  expect(frames.flatMap(({ files }) => files.map(({ path }) => path))).toEqual([
    '/DCIM/100SETSD/QMST9995.DNG',
    '/DCIM/100SETSD/QMST9998.DNG',
    '/DCIM/100SETSD/QMST9999.DNG',
    '/DCIM/101SETSD/QMST0001.DNG',
  ]);
  const next = await runStandIn(options());
  expect(next.frames[0]?.files[0]?.path).toBe('/DCIM/101SETSD/QMST0002.DNG');
});

test('faults happen to the first camera only, and each frame tells its own', async () => {
  const faults = ['duplicate@1', 'clock=1'].map(parseFaultOrder);
  const { frames } = await runStandIn(options({ cameras: 2, faults }));
  expect(frames.map((frame) => frame.faults)).toEqual([
    [
      { name: 'duplicate', value: null },
      { name: 'clock', value: 1 },
    ],
    [],
  ]);
});

test.each([
  ['cameras', { cameras: 0 }],
  ['cameras', { cameras: 9 }],
  ['burst', { burst: 0 }],
  ['burst', { burst: 11 }],
  ['files', { files: [] }],
  ['files', { files: ['raw', 'raw'] as const }],
  ['accounts', { accounts: [] }],
])('%s outside its range is refused before anything is sent', async (name, changes) => {
  await expect(runStandIn(options(changes))).rejects.toMatchObject({
    code: 'stand-in-wrong-option',
    details: { name },
  });
  expect(station.commands).toEqual([]);
});

/** The moment in the Exif of a file that the station holds. */
function takenAt(path: string): number {
  const { tags } = inspect(sourceOfBytes(station.files.get(path) ?? new Uint8Array()));
  const [date = '', time = ''] = (tags.dateTimeOriginal ?? '').split(' ');
  return Date.parse(
    `${date.replaceAll(':', '-')}T${time}.${tags.subSecTimeOriginal}${tags.offsetTimeOriginal}`,
  );
}
