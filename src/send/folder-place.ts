import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, link, mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../base/index.ts';
import { SendFailure } from './core/failure.ts';
import { partName } from './core/names.ts';
import type { FileToSend, OpenPlace, SendWatch, Sent } from './open-place.ts';
import { openLocal, piecesOf } from './read-file.ts';

/** A folder of this computer: written, synced and read again before the file gets its name. */
export class FolderPlace implements OpenPlace {
  readonly #base: string;
  readonly #folder: string;

  /** `below`: folders that are made in it where they are missing. */
  constructor(base: string, below: readonly string[]) {
    this.#base = base;
    this.#folder = join(base, ...below);
  }

  async send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    try {
      return await this.#send(file, watch);
    } catch (thrown) {
      watch.signal.throwIfAborted();
      throw folderFailure(thrown, file.name, this.#base);
    }
  }

  async letGo(file: FileToSend): Promise<void> {
    await rm(this.#pathOf(partName(file.name, file.sha256)), { force: true });
  }

  async remove(name: string): Promise<void> {
    await rm(this.#pathOf(name), { force: true });
  }

  close(): void {}

  #pathOf(name: string): string {
    return join(this.#folder, name);
  }

  async #send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    const base = await stat(this.#base).catch(() => null);
    // Never made: where the client's disk is not plugged in, its folder would come to lie on this one.
    if (base?.isDirectory() !== true) throw new SendFailure('stop', 'send.no-folder', { folder: this.#base });
    await mkdir(this.#folder, { recursive: true });
    const path = this.#pathOf(file.name);
    const part = this.#pathOf(partName(file.name, file.sha256));
    const sent: Sent = { where: path, proof: 'read-back' };
    if (await this.#isThere(path, file)) {
      await rm(part, { force: true });
      return sent;
    }
    await copy(file, part, watch);
    if ((await hashOf(part)) !== file.sha256) {
      await rm(part, { force: true });
      throw new SendFailure('again', 'send.other-bytes', { name: file.name });
    }
    await nameIt(part, path);
    await syncFolder(this.#folder);
    // Somebody may have been faster: theirs stays.
    if (!(await this.#isThere(path, file)))
      throw new SendFailure('again', 'send.other-bytes', { name: file.name });
    await rm(part, { force: true });
    return sent;
  }

  /** Whether it lies there already. Rejects `send.name-taken` where something else does. */
  async #isThere(path: string, file: FileToSend): Promise<boolean> {
    const found = await stat(path).catch((thrown: unknown) => {
      if (errorCode(thrown) === 'ENOENT') return null;
      throw thrown;
    });
    if (found === null) return false;
    if (found.isFile() && found.size === file.bytes && (await hashOf(path)) === file.sha256) return true;
    throw new SendFailure('file', 'send.name-taken', { name: file.name });
  }
}

/** Goes on where an earlier attempt ended; what it wrote wrongly is found when all is read again. */
async function copy(file: FileToSend, part: string, { signal, progress }: SendWatch): Promise<void> {
  const source = await openLocal(file);
  let target: FileHandle | null = null;
  try {
    target = await open(part, 'a');
    const { size } = await target.stat();
    if (size > file.bytes) await target.truncate(0);
    const from = size > file.bytes ? 0 : size;
    progress(from);
    for await (const { start, bytes } of piecesOf(source, file)) {
      signal.throwIfAborted();
      const end = start + bytes.length;
      if (end <= from) continue;
      await target.writeFile(bytes.subarray(Math.max(0, from - start)));
      progress(end);
    }
    await target.sync();
  } finally {
    await source.close();
    await target?.close();
  }
}

/** Gives the file its name unless another has it: a second name (link) cannot take one away, which a rename would. */
async function nameIt(part: string, path: string): Promise<void> {
  try {
    await link(part, path);
  } catch (thrown) {
    if (errorCode(thrown) === 'EEXIST') return;
    // Disks of cameras and clients (FAT, exFAT) know no second name; the last look there is all that can be had.
    if (await stat(path).catch(() => null)) return;
    await rename(part, path);
  }
}

async function hashOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const bytes of createReadStream(path)) hash.update(bytes as Buffer);
  return hash.digest('hex');
}

/** Not every system lets a folder be opened; there the name is as durable as the system makes it. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => {});
  await handle?.close();
}

function folderFailure(thrown: unknown, name: string, folder: string): unknown {
  if (thrown instanceof SendFailure) return thrown;
  const why = errorCode(thrown);
  switch (why) {
    case 'ENOSPC':
    case 'EDQUOT':
      return new SendFailure('stop', 'send.disk-full', {}, thrown);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return new SendFailure('stop', 'send.not-allowed', { why }, thrown);
    case 'EIO':
    case 'ENOENT':
    case 'ENODEV':
      return new SendFailure('again', 'send.no-folder', { folder }, thrown);
    default:
      return new SendFailure('stop', 'send.refused', { name, why }, thrown);
  }
}
