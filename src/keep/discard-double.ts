import { type BigIntStats, constants } from 'node:fs';
import { type FileHandle, lstat, open, unlink } from 'node:fs/promises';
import { MiB } from '../base/index.ts';

/**
 * {@link Disk.discardDouble} on the disk of this computer. No link is followed. What is compared is what is taken away: the
 * name still leads to the file that was read.
 */
export async function discardDouble(path: string, keeper: string): Promise<boolean> {
  const flags = constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0);
  const file = await open(path, flags);
  try {
    const other = await open(keeper, flags);
    try {
      const [mine, theirs] = await Promise.all([file.stat({ bigint: true }), other.stat({ bigint: true })]);
      if (!mine.isFile() || !theirs.isFile() || isSameFile(mine, theirs) || mine.size > theirs.size)
        return false;
      if (!(await beginsWith(other, file, Number(mine.size)))) return false;
      if (!isSameFile(mine, await lstat(path, { bigint: true }))) return false;
    } finally {
      await other.close();
    }
  } finally {
    // Windows takes no file away that is open.
    await file.close();
  }
  await unlink(path);
  return true;
}

function isSameFile(one: BigIntStats, other: BigIntStats): boolean {
  return one.dev === other.dev && one.ino === other.ino;
}

/** Whether `whole` begins with all `sizeBytes` of `start`, and `start` has no more. */
async function beginsWith(whole: FileHandle, start: FileHandle, sizeBytes: number): Promise<boolean> {
  const ours = Buffer.allocUnsafe(MiB);
  const theirs = Buffer.allocUnsafe(MiB);
  for (let done = 0; ; ) {
    const { bytesRead } = await start.read(ours, 0, MiB, done);
    if (bytesRead === 0) return done === sizeBytes;
    for (let got = 0; got < bytesRead; ) {
      const read = await whole.read(theirs, got, bytesRead - got, done + got);
      if (read.bytesRead === 0) return false;
      got += read.bytesRead;
    }
    if (!ours.subarray(0, bytesRead).equals(theirs.subarray(0, bytesRead))) return false;
    done += bytesRead;
  }
}
