import { randomUUID } from 'node:crypto';
import { mkdtemp, readFile, rm, rmdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Keep, openKeep, verifyOriginals } from '../../src/keep/index.ts';
import { hasProgram, runProgram } from './clients.ts';

const MB = 1_000_000;

/** Mounting takes root's rights; without them, or elsewhere than on Linux, this is skipped by name. */
const canMount =
  process.platform === 'linux' && process.getuid?.() === 0 && hasProgram('mount') && (await tryMount());

async function tryMount(): Promise<boolean> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-mount-'));
  const mounted = (await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder])).code === 0;
  if (mounted) await runProgram('umount', [folder]);
  await rmdir(folder);
  return mounted;
}

function openAt(home: string, diskFloorBytes = 0): Promise<Keep> {
  return openKeep({
    home,
    inspect: async ({ sizeBytes }) =>
      sizeBytes < 4 * MB ? { kind: 'cut', expectedBytes: 4 * MB } : { kind: 'whole' },
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'QM-26',
    diskFloorBytes,
    hashWorkers: 0,
  });
}

/** Megabytes are compared as one: an element by element report of a difference takes minutes. */
async function sameBytes(path: string, expected: Uint8Array): Promise<boolean> {
  return (await readFile(path)).equals(expected);
}

const bytes = Uint8Array.from({ length: 4 * MB }, (_, i) => (i * 7 + (i >> 9)) & 0xff);

test.skipIf(!canMount)(
  'K7.2 a disk that is really full: told by its code, what had come stays, and is resumed when there is room',
  async () => {
    const home = await mkdtemp(join(tmpdir(), 'setside-full-'));
    await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=3m', 'tmpfs', home]);
    try {
      const keep = await openAt(home);
      const folder = keep.folderOf('cam1');
      const arrival = await folder.open('/X.DNG', { via: 'ftp', at: 'start', announcedBytes: null });
      const writes = [];
      for (let start = 0; start < bytes.length; start += 65_536) {
        writes.push(arrival.write(bytes.subarray(start, start + 65_536)));
      }
      const refused = (await Promise.allSettled(writes)).filter(({ status }) => status === 'rejected');
      expect(refused[0]).toMatchObject({ reason: { code: 'disk-full' } });
      const outcome = await arrival.finish('failed');
      expect(outcome).toMatchObject({ kind: 'failed', code: 'disk-full' });
      await expect(
        folder.open('/Y.DNG', { via: 'ftp', at: 'start', announcedBytes: null }),
      ).rejects.toMatchObject({
        code: 'disk-full',
      });
      await keep.close();

      await runProgram('mount', ['-o', 'remount,size=16m', home]);
      const after = await openAt(home);
      const [held] = after.brokenOff();
      expect(held?.sizeBytes).toBe(outcome.sizeBytes);
      expect(await sameBytes(held?.diskPath ?? '', bytes.subarray(0, outcome.sizeBytes))).toBe(true);
      const resumed = await after
        .folderOf('cam1')
        .open('/X.DNG', { via: 'ftp', at: 'end', announcedBytes: null });
      expect(resumed.offsetBytes).toBe(outcome.sizeBytes);
      await resumed.write(bytes.subarray(resumed.offsetBytes));
      expect(await resumed.finish('closed')).toMatchObject({ kind: 'kept', sizeBytes: 4 * MB });
      expect(await sameBytes(join(home, 'jobs/QM-26/originals/cam1/X.DNG'), bytes)).toBe(true);
      await after.close();
      expect((await verifyOriginals(home)).findings).toEqual([]);
    } finally {
      // Lazily, so that a failed test's open files do not hide its failure behind this one.
      await runProgram('umount', ['-l', home]);
      await rmdir(home);
    }
  },
);

test.skipIf(!canMount)('K7.1 the floor is held against what the disk really has', async () => {
  const home = await mkdtemp(join(tmpdir(), 'setside-full-'));
  await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=8m', 'tmpfs', home]);
  try {
    const keep = await openAt(home, 4 * MB);
    const folder = keep.folderOf('cam1');
    const { freeBytes, totalBytes } = await keep.free();
    expect(totalBytes).toBe(8 * 1024 * 1024);
    expect(freeBytes).toBeGreaterThan(8 * MB);
    const arrival = await folder.open('/X.DNG', { via: 'ftp', at: 'start', announcedBytes: null });
    await arrival.write(bytes);
    await arrival.write(bytes.subarray(0, MB));
    await expect(
      folder.open('/Y.DNG', { via: 'ftp', at: 'start', announcedBytes: null }),
    ).rejects.toMatchObject({
      code: 'disk-full',
    });
    expect(await arrival.finish('closed')).toMatchObject({ kind: 'kept', sizeBytes: 5 * MB });
    await keep.close();
  } finally {
    // Lazily, so that a failed test's open files do not hide its failure behind this one.
    await runProgram('umount', ['-l', home]);
    await rmdir(home);
  }
});

test.skipIf(!canMount)(
  'K2.10 a camera that sends a file for ever does not fill the disk; K7.5 and a full one gives back once there is room',
  async () => {
    const home = await mkdtemp(join(tmpdir(), 'setside-full-'));
    await runProgram('mount', ['-t', 'tmpfs', '-o', 'size=16m', 'tmpfs', home]);
    try {
      const keep = await openAt(home, 6 * MB);
      const folder = keep.folderOf('cam1');
      const sendOnce = async (): Promise<void> => {
        const arrival = await folder.open('/X.DNG', { via: 'ftp', at: 'start', announcedBytes: null });
        await arrival.write(bytes);
        expect(await arrival.finish('closed')).toMatchObject({ kind: 'kept' });
      };
      for (let times = 0; times < 8; times++) {
        await sendOnce();
        expect((await keep.foldDoubles()).failure).toBeNull();
      }
      await sendOnce();
      await sendOnce();
      // Without folding even the third time is refused.
      await expect(sendOnce()).rejects.toMatchObject({ code: 'disk-full' });
      const filler = join(home, 'filler');
      await writeFile(filler, Buffer.alloc(16 * MB)).catch(() => {});
      const { freeBytes } = await keep.free();
      expect(freeBytes).toBe(0);
      await keep.foldDoubles();
      expect(await sameBytes(join(home, 'jobs/QM-26/originals/cam1/X.DNG'), bytes)).toBe(true);
      await rm(filler);
      await keep.foldDoubles();
      expect(await keep.heldInIncoming()).toEqual([]);
      await sendOnce();
      await keep.close();
      expect((await verifyOriginals(home)).findings).toEqual([]);
    } finally {
      await runProgram('umount', ['-l', home]);
      await rmdir(home);
    }
  },
);
