import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { runStandIn, type StandInOptions } from '../../src/stand-in/index.ts';
import { openSftpHall, type SftpHall } from '../interop/sftp-hall.ts';

/** The pretend camera before a real SFTP door. */
let hall: SftpHall;
let cacheDir: string;

beforeEach(async () => {
  hall = await openSftpHall();
  cacheDir = mkdtempSync(join(tmpdir(), 'setside-stand-in-'));
});
afterEach(async () => {
  await hall.door.close();
  rmSync(cacheDir, { recursive: true, force: true });
});

const shoot = (changes: Partial<StandInOptions> = {}): ReturnType<typeof runStandIn> =>
  runStandIn({
    host: '127.0.0.1',
    port: hall.door.port,
    protocol: 'sftp',
    accounts: [{ user: 'camera', password: 'right' }],
    resendAfterMs: 0,
    paceBytesPerSecond: Number.POSITIVE_INFINITY,
    frames: 1,
    intervalMs: 0,
    cacheDir,
    seed: 7,
    sizeMegapixels: 0.05,
    now: () => 1_790_841_600_000,
    signal: new AbortController().signal,
    onProgress: () => {},
    shots: ['bowl'],
    threads: 0,
    ...changes,
  });

test('frames arrive whole under DCF names', async () => {
  const { frames } = await shoot({ frames: 2 });
  const sizes = frames.flatMap(({ files }) => files.map(({ sizeBytes }) => sizeBytes));
  expect(hall.folder.originals.map(({ name, bytes }) => [name, bytes.length])).toEqual([
    ['QMST0001.DNG', sizes[0]],
    ['QMST0002.DNG', sizes[1]],
  ]);
  expect(hall.codes().filter((code) => code === 'line.logged-in')).toHaveLength(1);
});

test('after a break it goes on where the file ends', async () => {
  const { frames } = await shoot({
    // Slow enough for pieces that are much smaller than the file.
    paceBytesPerSecond: 500_000,
    faults: [{ name: 'cut', value: 50, frames: [1] }],
  });
  expect(hall.folder.read('/DCIM/100SETSD/QMST0001.DNG')).toHaveLength(frames[0]?.files[0]?.sizeBytes ?? 0);
  expect(hall.codes()).toEqual(expect.arrayContaining(['line.upload-broken-off', 'line.upload-resumed']));
});

test('a wrong password and a shut door are told apart', async () => {
  const wrong = shoot({ accounts: [{ user: 'camera', password: 'wrong' }] });
  await expect(wrong).rejects.toMatchObject({ code: 'stand-in-refused' });
  await hall.door.close();
  await expect(shoot()).rejects.toMatchObject({ code: 'stand-in-unreachable' });
});
