import { createHash } from 'node:crypto';
import { constants, type Stats } from 'node:fs';
import { type FileHandle, lstat, open, realpath } from 'node:fs/promises';
import { dirname, join, sep } from 'node:path';
import { errorCode } from '../../../base/index.ts';
import type { Sight } from '../core/stillness.ts';

/** A file of somebody else, open for reading only. Nothing here writes, moves or deletes. */
export class SourceFile {
  readonly path: string;
  readonly #handle: FileHandle;

  private constructor(path: string, handle: FileHandle) {
    this.path = path;
    this.#handle = handle;
  }

  /**
   * Opens a file below `root`. A link is not followed, neither as the file nor as a folder on the way to it: rejects
   * `ELOOP`. Rejects with the system's error where it cannot be read.
   */
  static async open(root: string, path: string): Promise<SourceFile> {
    const whole = join(root, path);
    const [realRoot, realFolder] = await Promise.all([realpath(root), realpath(dirname(whole))]);
    if (realFolder !== realRoot && !realFolder.startsWith(realRoot + sep)) {
      throw Object.assign(new Error(`${whole} leads out of ${root}`), { code: 'ELOOP' });
    }
    const handle = await open(whole, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
    return new SourceFile(whole, handle);
  }

  /** What is at the path now; null where nothing is, or something else than this file. */
  async sight(): Promise<Sight | null> {
    const there = await sightOf(this.path);
    if (there === null) return null;
    const own = await this.#handle.stat();
    return there.inode === own.ino ? there : null;
  }

  read(into: Uint8Array, atBytes: number): Promise<number> {
    return this.#handle.read(into, 0, into.length, atBytes).then(({ bytesRead }) => bytesRead);
  }

  /** SHA-256 of the first bytes as they are now, in hexadecimal; null where there are fewer. */
  async sha256(sizeBytes: number): Promise<string | null> {
    const hash = createHash('sha256');
    const buffer = new Uint8Array(1 << 18);
    for (let at = 0; at < sizeBytes; ) {
      const count = await this.read(buffer.subarray(0, Math.min(buffer.length, sizeBytes - at)), at);
      if (count === 0) return null;
      hash.update(buffer.subarray(0, count));
      at += count;
    }
    return hash.digest('hex');
  }

  async close(): Promise<void> {
    await this.#handle.close().catch(() => {});
  }
}

/** What the system shows of an ordinary file; null where there is none, or a link, folder or device. */
export async function sightOf(path: string): Promise<(Sight & { readonly inode: number }) | null> {
  let found: Stats;
  try {
    found = await lstat(path);
  } catch (trouble) {
    if (['ENOENT', 'ENOTDIR'].includes(errorCode(trouble))) return null;
    throw trouble;
  }
  return found.isFile() ? { ...sightFrom(found), inode: found.ino } : null;
}

export function sightFrom({ size, mtimeMs }: Stats): Sight {
  return { sizeBytes: size, modifiedMs: Math.floor(mtimeMs) };
}
