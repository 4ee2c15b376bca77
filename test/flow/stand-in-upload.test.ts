import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import {
  type FaultOrder,
  runStandIn,
  type StandInOptions,
  type StandInProgress,
} from '../../src/stand-in/index.ts';
import { type FakeStation, startFakeStation } from './stand-in-fake-station.ts';

let station: FakeStation;
let cacheDir: string;
let progress: StandInProgress[];

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
    resendAfterMs: 0,
    paceBytesPerSecond: Number.POSITIVE_INFINITY,
    frames: 1,
    intervalMs: 0,
    cacheDir,
    seed: 7,
    sizeMegapixels: 0.05,
    now: () => 1_790_841_600_000,
    signal: new AbortController().signal,
    onProgress: (step) => progress.push(step),
    shots: ['bowl'],
    threads: 0,
    ...changes,
  };
}

const cutAt = (percent: number): FaultOrder => ({ name: 'cut', value: percent, frames: [1] });
const codes = (): string[] => progress.map(({ code }) => code);

test('frames arrive whole under DCF names, over one connection, and the counter goes on next time', async () => {
  const first = await runStandIn(options({ frames: 2 }));
  expect([...station.files.keys()]).toEqual(['/DCIM/100SETSD/QMST0001.DNG', '/DCIM/100SETSD/QMST0002.DNG']);
  expect(
    first.frames
      .flatMap(({ files }) => files)
      .map(({ path, sent, sizeBytes }) => [sent, station.files.get(path)?.length === sizeBytes]),
  ).toEqual([
    [true, true],
    [true, true],
  ]);
  expect(station.connections).toBe(1);
  expect(station.commands.filter((line) => line.startsWith('MKD'))).toEqual([
    'MKD /DCIM',
    'MKD /DCIM/100SETSD',
  ]);
  const second = await runStandIn(options());
  expect(second.frames[0]?.files[0]?.path).toBe('/DCIM/100SETSD/QMST0003.DNG');
});

test('a broken upload is taken up again where the station says it ended, and the file is the same', async () => {
  await runStandIn(options({ firstOrdinal: 1 }));
  const whole = station.files.get('/DCIM/100SETSD/QMST0001.DNG');
  const size = whole?.length ?? 0;
  await runStandIn(options({ firstOrdinal: 2, paceBytesPerSecond: size * 4, faults: [cutAt(50)] }));
  expect(codes()).toContain('stand-in.broke-off');
  expect(codes()).toContain('stand-in.resuming');
  expect(station.commands.filter((line) => line.startsWith('APPE'))).toEqual([
    'APPE /DCIM/100SETSD/QMST0002.DNG',
  ]);
  expect(station.files.get('/DCIM/100SETSD/QMST0002.DNG')?.equals(whole ?? Buffer.alloc(0))).toBe(true);
});

test('without retries a broken upload is given up and said so', async () => {
  const summary = await runStandIn(
    options({ retries: 0, paceBytesPerSecond: 1_000_000, faults: [cutAt(30)] }),
  );
  expect(summary.frames[0]?.sent).toBe(false);
  const held = [...station.files.values()][0]?.length ?? 0;
  expect(held).toBeLessThan(summary.frames[0]?.files[0]?.sizeBytes ?? 0);
});

test('a second session takes its rendering from the cache and shoots the same frame', async () => {
  await runStandIn(options({ firstOrdinal: 1 }));
  expect(codes()).toContain('stand-in.rendering');
  expect(readdirSync(cacheDir).some((name) => name.endsWith('.rendering'))).toBe(true);
  progress = [];
  await runStandIn(options({ firstOrdinal: 2 }));
  expect(codes()).not.toContain('stand-in.rendering');
  const [first, second] = [...station.files.values()];
  expect(first?.equals(second ?? Buffer.alloc(0))).toBe(true);
});

test('a wrong password and a closed port are told apart', async () => {
  await expect(
    runStandIn(options({ accounts: [{ user: 'cam1', password: 'wrong' }] })),
  ).rejects.toMatchObject({
    code: 'stand-in-refused',
  });
  const closed = createServer();
  await new Promise<void>((resolve) => closed.listen(0, '127.0.0.1', resolve));
  const address = closed.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  await new Promise((resolve) => closed.close(resolve));
  await expect(runStandIn(options({ port }))).rejects.toMatchObject({
    code: 'stand-in-unreachable',
    retryable: true,
  });
});

test('an abort in the middle of an upload ends the session with its reason', async () => {
  const stopping = new AbortController();
  const reason = new Error('the demo is closed');
  const running = runStandIn(
    options({
      signal: stopping.signal,
      paceBytesPerSecond: 20_000,
      onProgress: ({ code }) => {
        if (code === 'stand-in.sending') stopping.abort(reason);
      },
    }),
  );
  await expect(running).rejects.toBe(reason);
});

test.each([
  ['frames', { frames: 0 }],
  ['frames', { frames: 100_001 }],
  ['sizeMegapixels', { sizeMegapixels: 0.04 }],
  ['sizeMegapixels', { sizeMegapixels: 24.1 }],
  ['paceBytesPerSecond', { paceBytesPerSecond: 0 }],
])('%s outside its range is refused before anything is sent', async (name, changes) => {
  await expect(runStandIn(options(changes))).rejects.toMatchObject({
    code: 'stand-in-wrong-option',
    details: { name },
  });
  expect(station.commands).toEqual([]);
});
