import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { InlineHashing } from './hash-inline.ts';
import type { HashSession } from './hash-session.ts';
import { gatherBuffersMax, IncomingWriter, type WriterHooks } from './incoming-writer.ts';
import { type SimulatedDisk, simulatedDisk } from './simulated-disk.ts';

const quiet: WriterHooks = { now: () => 1, grown: () => {}, synced: () => {} };

async function newWriter(
  disk: SimulatedDisk,
  hash: HashSession = new InlineHashing(disk).begin(),
): Promise<IncomingWriter> {
  return new IncomingWriter(await disk.createFile('/x'), hash, 0, quiet);
}

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
  const writer = await newWriter(disk, { update: lost, updateFromFile: lost, digest: lost });
  await writer.write(all);
  expect(await writer.end()).toEqual({ sizeBytes: all.length, sha256: null, failure: null });
  expect(disk.bytesOf('/x')).toEqual(all);
});
