import {
  constants,
  type FileHandle,
  lstat,
  mkdir,
  open,
  readdir,
  readFile,
  rename,
  statfs,
} from 'node:fs/promises';
import { basename, join } from 'node:path';
import { errorCode } from '../base/index.ts';
import { discardDouble } from './discard-double.ts';
import type { Disk, DiskEntry, DiskFile, DiskFolder } from './disk.ts';
import { lockHome } from './home-lock.ts';

/** The disk of this computer. */
export function nodeDisk(): Disk {
  return {
    createFile: async (path) => nodeFile(await open(path, 'wx+')),
    openFile: async (path, mode) => nodeFile(await open(path, openFlags(mode))),
    rename,
    discardDouble,
    syncFolder,
    openFolder,
    makeFolder,
    list,
    stat,
    free: async (path) => {
      const { bavail, blocks, bsize } = await statfs(path);
      return { freeBytes: bavail * bsize, totalBytes: blocks * bsize };
    },
    bootId,
    lock: async (home) => lockHome(home),
  };
}

/** No symbolic link is followed: a link in the home could lead a camera's bytes anywhere. Windows has no such flag. */
function openFlags(mode: 'read' | 'write'): number {
  return (mode === 'read' ? constants.O_RDONLY : constants.O_RDWR) | (constants.O_NOFOLLOW ?? 0);
}

function nodeFile(handle: FileHandle): DiskFile {
  return {
    write: (buffers, positionBytes) => writeAll(handle, buffers, positionBytes),
    read: (into, positionBytes) => readFully(handle, into, positionBytes),
    sync: () => handle.datasync(),
    sizeBytes: async () => (await handle.stat()).size,
    close: () => handle.close(),
  };
}

/** A system may write less than it was given, above all just before the disk is full: then the next call says why. */
async function writeAll(handle: FileHandle, buffers: readonly Uint8Array[], position: number): Promise<void> {
  const total = buffers.reduce((sum, buffer) => sum + buffer.length, 0);
  let done = buffers.length > 1 ? (await handle.writev(buffers, position)).bytesWritten : 0;
  while (done < total) {
    const { buffer, skip } = bufferAt(buffers, done);
    done += (await handle.write(buffer, skip, buffer.length - skip, position + done)).bytesWritten;
  }
}

function bufferAt(buffers: readonly Uint8Array[], offset: number): { buffer: Uint8Array; skip: number } {
  let skip = offset;
  for (const buffer of buffers) {
    if (skip < buffer.length) return { buffer, skip };
    skip -= buffer.length;
  }
  throw new RangeError(`offset ${offset} lies behind the last buffer`);
}

async function readFully(handle: FileHandle, into: Uint8Array, position: number): Promise<number> {
  let done = 0;
  while (done < into.length) {
    const { bytesRead } = await handle.read(into, done, into.length - done, position + done);
    if (bytesRead === 0) break;
    done += bytesRead;
  }
  return done;
}

async function syncFolder(path: string): Promise<void> {
  const folder = await openFolder(path);
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}

async function openFolder(path: string): Promise<DiskFolder> {
  // Windows opens no folder for syncing; its file system journals names by itself.
  if (process.platform === 'win32') return { sync: async () => {}, close: async () => {} };
  const handle = await open(path, 'r');
  return { sync: () => handle.sync(), close: () => handle.close() };
}

async function makeFolder(path: string): Promise<boolean> {
  try {
    await mkdir(path);
    return true;
  } catch (cause) {
    if (errorCode(cause) === 'EEXIST' && (await stat(path))?.kind === 'folder') return false;
    throw cause;
  }
}

async function list(path: string): Promise<DiskEntry[]> {
  const names = await readdir(path);
  const entries = await Promise.all(names.sort().map((name) => stat(join(path, name))));
  return entries.filter((entry) => entry !== null);
}

async function stat(path: string): Promise<DiskEntry | null> {
  try {
    const found = await lstat(path);
    const kind = found.isFile() ? 'file' : found.isDirectory() ? 'folder' : 'other';
    return { name: basename(path), kind, sizeBytes: found.size };
  } catch (cause) {
    if (errorCode(cause) === 'ENOENT' || errorCode(cause) === 'ENOTDIR') return null;
    throw cause;
  }
}

/** Linux only; elsewhere every start counts as one after power loss, which costs a resume and never a byte. */
async function bootId(): Promise<string | null> {
  try {
    return (await readFile('/proc/sys/kernel/random/boot_id', 'utf8')).trim() || null;
  } catch {
    return null;
  }
}
