import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import type { DiskFile } from './disk.ts';
import { InlineHashing } from './hash-inline.ts';
import type { HashSession } from './hash-session.ts';
import {
  gatherBuffersMax,
  IncomingWriter,
  syncEveryBytes,
  unsyncedBytesMax,
  type WriterHooks,
} from './incoming-writer.ts';
import { SyncLanes, syncLanesMax } from './sync-lanes.ts';
import { type SimulatedDisk, simulatedDisk } from './testing/simulated-disk.ts';

const quiet: WriterHooks = { now: () => 1, grown: () => {}, synced: () => {}, lanes: new SyncLanes() };

async function newWriter(
  disk: SimulatedDisk,
  hash: HashSession = new InlineHashing(disk).begin(),
): Promise<IncomingWriter> {
  return new IncomingWriter(await disk.createFile('/x'), hash, 0, quiet);
}

const soon = () => new Promise((resolve) => setImmediate(resolve));

const pieces = Array.from({ length: 100 }, (_, i) => new Uint8Array(i % 7).fill(i));
const all = new Uint8Array(pieces.flatMap((piece) => [...piece]));
const sha256 = createHash('sha256').update(all).digest('hex');

test('K1.1 writes under way side by side land in order, gathered into few calls', async () => {
  const disk = simulatedDisk();
  const writer = await newWriter(disk);
  await Promise.all(pieces.map((piece) => writer.write(piece)));
  expect(disk.bytesOf('/x')).toEqual(all);
  expect(await writer.end()).toEqual({ sizeBytes: all.length, sha256, failure: null });
  const calls = disk.steps.filter((step) => step === 'write /x').length;
  expect(calls).toBeLessThanOrEqual(1 + Math.ceil(pieces.length / gatherBuffersMax));
});

test('K1.1 a write settles only after its bytes are hashed: the caller may use the memory again', async () => {
  let finishHash = (): void => {};
  const hash: HashSession = {
    update: () =>
      new Promise((resolve) => {
        finishHash = resolve;
      }),
    updateFromFile: async () => {},
    digest: async () => sha256,
    end: () => {},
  };
  const disk = simulatedDisk();
  const writer = await newWriter(disk, hash);
  let settled = false;
  const write = writer.write(new Uint8Array(3)).then(() => {
    settled = true;
  });
  await expect.poll(() => disk.bytesOf('/x')?.length).toBe(3);
  expect(settled).toBe(false);
  finishHash();
  await write;
  expect(settled).toBe(true);
});

test('K7.2 after a refused write every later one is refused with the same code, and the size told is that on the disk', async () => {
  const disk = simulatedDisk();
  const writer = await newWriter(disk);
  await writer.write(new Uint8Array(100));
  disk.refuse((step) => (step.startsWith('write') ? 'ENOSPC' : null));
  await expect(writer.write(new Uint8Array(60))).rejects.toMatchObject({ code: 'disk-full' });
  disk.refuse(() => null);
  await expect(writer.write(new Uint8Array(1))).rejects.toMatchObject({ code: 'disk-full' });
  // Half of the refused write went through, as on a disk that fills up.
  expect(await writer.end()).toMatchObject({ sizeBytes: 130, sha256: null });
});

test('K9.2 a lost hash is no reason to refuse bytes', async () => {
  const lost = async (): Promise<never> => {
    throw new Error('the worker is gone');
  };
  const disk = simulatedDisk();
  const writer = await newWriter(disk, { update: lost, updateFromFile: lost, digest: lost, end: () => {} });
  await writer.write(all);
  expect(await writer.end()).toEqual({ sizeBytes: all.length, sha256: null, failure: null });
  expect(disk.bytesOf('/x')).toEqual(all);
});

/** A writer whose disk takes bytes at once and syncs when the test says so. */
async function slowSyncing(lanes = new SyncLanes()): Promise<{
  writer: IncomingWriter;
  onDisk: () => number;
  syncs: { succeed: () => void; fail: (cause: unknown) => void }[];
}> {
  const disk = simulatedDisk();
  const file = await disk.createFile('/x');
  const syncs: { succeed: () => void; fail: (cause: unknown) => void }[] = [];
  const sync: DiskFile['sync'] = () =>
    new Promise((succeed, fail) => {
      syncs.push({ succeed, fail });
    });
  const hash: HashSession = {
    update: async () => {},
    updateFromFile: async () => {},
    digest: async () => sha256,
    end: () => {},
  };
  const writer = new IncomingWriter({ ...file, sync }, hash, 0, { ...quiet, lanes });
  return { writer, onDisk: () => disk.bytesOf('/x')?.length ?? 0, syncs };
}

test('K7.4 while as much as the bound waits for its sync the line waits; one byte less and it goes on', async () => {
  for (const first of [unsyncedBytesMax - 1, unsyncedBytesMax]) {
    const { writer, onDisk, syncs } = await slowSyncing();
    await writer.write(new Uint8Array(first));
    const second = writer.write(new Uint8Array(10));
    if (first < unsyncedBytesMax) {
      await second;
    } else {
      await expect.poll(() => syncs.length).toBe(1);
      expect(onDisk()).toBe(first);
      syncs[0]?.succeed();
      await second;
    }
    expect(onDisk()).toBe(first + 10);
  }
});

test('K7.4 a file is synced on its way, one sync at a time, from the first piece on', async () => {
  const { writer, syncs } = await slowSyncing();
  await writer.write(new Uint8Array(syncEveryBytes - 1));
  expect(syncs).toHaveLength(0);
  await writer.write(new Uint8Array(1));
  await writer.write(new Uint8Array(syncEveryBytes));
  expect(syncs).toHaveLength(1);
});

test('K7.4 as many files as there are lanes are synced on their way; one more when one is done, or its camera waits', async () => {
  const lanes = new SyncLanes();
  const files = await Promise.all(Array.from({ length: syncLanesMax + 1 }, () => slowSyncing(lanes)));
  for (const { writer } of files) await writer.write(new Uint8Array(syncEveryBytes));
  expect(files.map(({ syncs }) => syncs.length)).toEqual([...Array(syncLanesMax).fill(1), 0]);
  const first = files[0];
  const oneMore = files[syncLanesMax];
  first?.syncs[0]?.succeed();
  await soon();
  await oneMore?.writer.write(new Uint8Array(1));
  expect(oneMore?.syncs).toHaveLength(1);
  await first?.writer.write(new Uint8Array(syncEveryBytes));
  expect(first?.syncs).toHaveLength(1);
  await first?.writer.end();
  expect(first?.syncs).toHaveLength(2);
});

test('K7.4 as much as the bound is synced though no lane is free', async () => {
  const lanes = new SyncLanes();
  for (let lane = 0; lane < syncLanesMax; lane++) lanes.tryRun(() => new Promise(() => {}));
  const { writer, syncs } = await slowSyncing(lanes);
  await writer.write(new Uint8Array(unsyncedBytesMax));
  expect(syncs).toHaveLength(0);
  void writer.write(new Uint8Array(1));
  await expect.poll(() => syncs.length).toBe(1);
});

// fsync(2), EIO: "this error may relate to data written to some other file descriptor", and Linux reports it once.
test('K7.2 a sync that failed on the way is not healed by a later one that succeeds', async () => {
  const { writer, syncs } = await slowSyncing();
  await writer.write(new Uint8Array(syncEveryBytes));
  const ended = writer.end();
  await expect.poll(() => syncs.length).toBe(2);
  syncs[1]?.succeed();
  syncs[0]?.fail(Object.assign(new Error('the disk failed'), { code: 'EIO' }));
  await ended;
  await expect(writer.durable()).rejects.toMatchObject({ code: 'EIO' });
});
