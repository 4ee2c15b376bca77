import { SetsideError } from '../../base/index.ts';
import type { Disk, DiskEntry, DiskFile, DiskFolder } from '../disk.ts';

/**
 * A disk in memory that can lose power, for tests. It knows two states of everything: as a running system sees it, and
 * as it would be found after the power went. Only `sync` of a file and `syncFolder` of a folder carry the one into the
 * other, as POSIX promises and no more. Every operation is a numbered step, at which a test may cut the power or let
 * the disk refuse.
 */
export interface SimulatedDisk extends Disk {
  /** Steps done so far, with what each did, for a failure's message. */
  readonly steps: readonly string[];
  /** At this step (from 0) and ever after nothing is done any more: the power is gone. */
  cutPowerAt(step: number): void;
  /** Refuses with a system's code while the predicate says so. */
  refuse(when: (operation: string, step: number) => 'ENOSPC' | 'EIO' | null): void;
  /**
   * The disk as the next start finds it. Whatever was not synced is gone, unless `survives` says otherwise, asked once
   * per unsynced folder entry and file: a real system may have written any part of it.
   */
  afterPowerLoss(survives?: (what: string) => boolean): SimulatedDisk;
  /** The disk after `kill -9` of the process alone: everything is there. */
  afterKill(): SimulatedDisk;
  /** The bytes of a file as a running system sees them, or null. */
  bytesOf(path: string): Uint8Array | null;
  /** Puts a file there, durable, as somebody else might have. */
  put(path: string, bytes: Uint8Array): void;
  /** Every file, as a running system sees it. */
  files(): readonly string[];
}

interface FileInode {
  readonly kind: 'file';
  data: Uint8Array;
  durable: Uint8Array;
  /** Taken away: it may be gone after a power loss, durable or not. */
  isDiscarded: boolean;
}

interface FolderInode {
  readonly kind: 'folder';
  entries: Map<string, Inode>;
  durable: Map<string, Inode>;
}

type Inode = FileInode | FolderInode;

export function simulatedDisk(): SimulatedDisk {
  return new MemoryDisk(newFolder(), 1);
}

class PowerLoss extends Error {
  readonly code = 'EPOWER';
}

class MemoryDisk implements SimulatedDisk {
  readonly steps: string[] = [];
  readonly #root: FolderInode;
  readonly #boot: number;
  #cutAt = Number.POSITIVE_INFINITY;
  #refuse: (operation: string, step: number) => 'ENOSPC' | 'EIO' | null = () => null;
  #locked = false;

  constructor(root: FolderInode, boot: number) {
    this.#root = root;
    this.#boot = boot;
  }

  cutPowerAt(step: number): void {
    this.#cutAt = step;
  }

  refuse(when: (operation: string, step: number) => 'ENOSPC' | 'EIO' | null): void {
    this.#refuse = when;
  }

  afterPowerLoss(survives: (what: string) => boolean = () => false): SimulatedDisk {
    return new MemoryDisk(afterLoss(this.#root, survives), this.#boot + 1);
  }

  afterKill(): SimulatedDisk {
    return new MemoryDisk(this.#root, this.#boot);
  }

  bytesOf(path: string): Uint8Array | null {
    const inode = this.#find(path);
    return inode?.kind === 'file' ? inode.data : null;
  }

  put(path: string, bytes: Uint8Array): void {
    let folder = this.#root;
    const parts = partsOf(path);
    const name = parts.pop() ?? '';
    for (const part of parts) {
      const child = folder.entries.get(part) ?? newFolder();
      if (child.kind !== 'folder') throw systemError('ENOTDIR', path);
      folder.entries.set(part, child);
      folder.durable.set(part, child);
      folder = child;
    }
    const file = newFile(bytes);
    folder.entries.set(name, file);
    folder.durable.set(name, file);
  }

  files(): readonly string[] {
    return filesIn(this.#root, '');
  }

  async createFile(path: string): Promise<DiskFile> {
    this.#step(`create ${path}`);
    const folder = this.#folder(parentOf(path));
    if (folder.entries.has(nameOf(path))) throw systemError('EEXIST', path);
    const file = newFile(new Uint8Array(0));
    folder.entries.set(nameOf(path), file);
    return this.#open(file, path);
  }

  async openFile(path: string): Promise<DiskFile> {
    this.#step(`open ${path}`);
    const file = this.#find(path);
    if (file?.kind !== 'file') throw systemError('ENOENT', path);
    return this.#open(file, path);
  }

  async rename(from: string, to: string): Promise<void> {
    this.#step(`rename ${from} ${to}`);
    const source = this.#folder(parentOf(from));
    const target = this.#folder(parentOf(to));
    const inode = source.entries.get(nameOf(from));
    if (inode === undefined) throw systemError('ENOENT', from);
    // The real call would write over it. Keep promises to look first; here a broken promise shows.
    if (target.entries.has(nameOf(to))) throw new Error(`${to} would have been written over`);
    source.entries.delete(nameOf(from));
    target.entries.set(nameOf(to), inode);
  }

  async discardDouble(path: string, keeper: string): Promise<boolean> {
    this.#step(`discard ${path}`);
    const file = this.#find(path);
    const other = this.#find(keeper);
    if (file?.kind !== 'file' || other?.kind !== 'file') throw systemError('ENOENT', path);
    if (file === other || file.data.length > other.data.length) return false;
    if (!Buffer.from(file.data).equals(other.data.subarray(0, file.data.length))) return false;
    // The other has to survive whatever comes now; here a broken promise shows.
    const durable = other.durable.subarray(0, file.data.length);
    if (!Buffer.from(file.data).equals(durable)) throw new Error(`${keeper} is not durable`);
    file.isDiscarded = true;
    this.#folder(parentOf(path)).entries.delete(nameOf(path));
    return true;
  }

  async syncFolder(path: string): Promise<void> {
    this.#syncFolder(this.#folder(path), path);
  }

  async openFolder(path: string): Promise<DiskFolder> {
    this.#step(`open-folder ${path}`);
    const folder = this.#folder(path);
    return { sync: async () => this.#syncFolder(folder, path), close: async () => {} };
  }

  async makeFolder(path: string): Promise<boolean> {
    this.#step(`make-folder ${path}`);
    const parent = this.#folder(parentOf(path));
    if (parent.entries.get(nameOf(path))?.kind === 'folder') return false;
    if (parent.entries.has(nameOf(path))) throw systemError('EEXIST', path);
    parent.entries.set(nameOf(path), newFolder());
    return true;
  }

  async list(path: string): Promise<DiskEntry[]> {
    this.#step(`list ${path}`);
    const { entries } = this.#folder(path);
    return [...entries].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, inode]) => entryOf(name, inode));
  }

  async stat(path: string): Promise<DiskEntry | null> {
    this.#step(`stat ${path}`);
    const inode = this.#find(path);
    return inode === null ? null : entryOf(nameOf(path), inode);
  }

  async free(): Promise<{ freeBytes: number; totalBytes: number }> {
    this.#step('free');
    return { freeBytes: 2 ** 40, totalBytes: 2 ** 41 };
  }

  async bootId(): Promise<string | null> {
    return `boot-${this.#boot}`;
  }

  async lock(home: string): Promise<() => void> {
    if (this.#locked) throw new SetsideError('home-in-use', `${home} is in use`);
    this.#locked = true;
    return () => {
      this.#locked = false;
    };
  }

  #syncFolder(folder: FolderInode, path: string): void {
    this.#step(`sync-folder ${path}`);
    folder.durable = new Map(folder.entries);
  }

  #open(file: FileInode, path: string): DiskFile {
    return {
      write: async (buffers, positionBytes) => {
        try {
          this.#step(`write ${path}`);
        } catch (cause) {
          // A full disk takes what still fits.
          if (!(cause instanceof PowerLoss))
            file.data = written(file.data, [firstHalf(buffers)], positionBytes);
          throw cause;
        }
        file.data = written(file.data, buffers, positionBytes);
      },
      read: async (into, positionBytes) => {
        this.#step(`read ${path}`);
        const bytes = file.data.subarray(positionBytes, positionBytes + into.length);
        into.set(bytes);
        return bytes.length;
      },
      sync: async () => {
        this.#step(`sync ${path}`);
        file.durable = file.data;
      },
      sizeBytes: async () => file.data.length,
      close: async () => {},
    };
  }

  #step(what: string): void {
    const step = this.steps.length;
    if (step >= this.#cutAt) throw new PowerLoss(`no power at step ${step}: ${what}`);
    this.steps.push(what);
    const code = this.#refuse(what, step);
    if (code !== null) throw systemError(code, what);
  }

  #find(path: string): Inode | null {
    let inode: Inode = this.#root;
    for (const part of partsOf(path)) {
      const child: Inode | undefined = inode.kind === 'folder' ? inode.entries.get(part) : undefined;
      if (child === undefined) return null;
      inode = child;
    }
    return inode;
  }

  #folder(path: string): FolderInode {
    const inode = this.#find(path);
    if (inode?.kind !== 'folder') throw systemError('ENOENT', path);
    return inode;
  }
}

/** What a power loss leaves of unsynced changes: asked of `survives`, within what file systems can do. */
interface Loss {
  readonly survives: (what: string) => boolean;
  /** Entries that were added, not synced, and are there all the same. */
  readonly added: Map<FolderInode, Map<string, Inode>>;
  /** What lies somewhere for certain: an entry of it may be gone elsewhere. */
  readonly placed: Set<Inode>;
  readonly done: Map<Inode, Inode>;
}

/**
 * The root after the loss. Each entry that was added and not synced may be there or not; one that was taken away and
 * not synced may be back. A rename may show on both sides, on either, but not on neither: a file system that lost the
 * file altogether would lose more than any order of syncs could save.
 */
function afterLoss(root: FolderInode, survives: (what: string) => boolean): FolderInode {
  const loss: Loss = { survives, added: new Map(), placed: new Set(), done: new Map() };
  decideAdditions(root, '', loss);
  return folderAfterLoss(root, '', loss);
}

function decideAdditions(folder: FolderInode, path: string, loss: Loss): void {
  const added = new Map<string, Inode>();
  loss.added.set(folder, added);
  for (const [name, inode] of folder.entries) {
    const isDurable = folder.durable.get(name) === inode;
    if (!isDurable && loss.survives(`entry ${path}/${name}`)) added.set(name, inode);
    if (isDurable || added.has(name)) loss.placed.add(inode);
    if (inode.kind === 'folder') decideAdditions(inode, `${path}/${name}`, loss);
  }
}

function folderAfterLoss(folder: FolderInode, path: string, loss: Loss): FolderInode {
  const result = newFolder();
  loss.done.set(folder, result);
  const entries = new Map([...folder.durable, ...(loss.added.get(folder) ?? [])]);
  for (const [name, inode] of entries) {
    const taken = folder.entries.get(name) !== inode;
    if (taken && inode.kind === 'file' && inode.isDiscarded && loss.survives(`absence ${path}/${name}`))
      continue;
    if (taken && loss.placed.has(inode) && loss.survives(`absence ${path}/${name}`)) continue;
    result.entries.set(name, inodeAfterLoss(inode, `${path}/${name}`, loss));
  }
  result.durable = new Map(result.entries);
  return result;
}

function inodeAfterLoss(inode: Inode, path: string, loss: Loss): Inode {
  const before = loss.done.get(inode);
  if (before !== undefined) return before;
  if (inode.kind === 'folder') return folderAfterLoss(inode, path, loss);
  const data = inode.data === inode.durable ? inode.durable : fileAfterLoss(inode, path, loss.survives);
  const result = newFile(data);
  loss.done.set(inode, result);
  return result;
}

/** A block that was not synced may be there, may be a hole of zeroes inside the full size, or the size is the old one. */
function fileAfterLoss(inode: FileInode, path: string, survives: (what: string) => boolean): Uint8Array {
  if (!survives(`size ${path}`)) return inode.durable;
  const data = inode.data.slice();
  for (let start = 0; start < data.length; start += blockBytes) {
    if (survives(`block ${start} ${path}`)) continue;
    const end = Math.min(start + blockBytes, data.length);
    data.fill(0, start, end);
    const known = inode.durable.subarray(start, end);
    data.set(known, start);
  }
  return data;
}

const blockBytes = 512;

function written(data: Uint8Array, buffers: readonly Uint8Array[], positionBytes: number): Uint8Array {
  const length = buffers.reduce((sum, buffer) => sum + buffer.length, 0);
  const result = new Uint8Array(Math.max(data.length, positionBytes + length));
  result.set(data);
  let position = positionBytes;
  for (const buffer of buffers) {
    result.set(buffer, position);
    position += buffer.length;
  }
  return result;
}

function firstHalf(buffers: readonly Uint8Array[]): Uint8Array {
  const all = written(new Uint8Array(0), buffers, 0);
  return all.subarray(0, all.length >> 1);
}

/** With these bytes, durable. */
function newFile(data: Uint8Array): FileInode {
  return { kind: 'file', data, durable: data, isDiscarded: false };
}

function newFolder(): FolderInode {
  return { kind: 'folder', entries: new Map(), durable: new Map() };
}

function entryOf(name: string, inode: Inode): DiskEntry {
  return { name, kind: inode.kind, sizeBytes: inode.kind === 'file' ? inode.data.length : 0 };
}

function filesIn(folder: FolderInode, path: string): string[] {
  return [...folder.entries].flatMap(([name, inode]) =>
    inode.kind === 'file' ? [`${path}/${name}`] : filesIn(inode, `${path}/${name}`),
  );
}

const partsOf = (path: string): string[] => path.split('/').filter((part) => part !== '');
const parentOf = (path: string): string => path.slice(0, path.lastIndexOf('/'));
const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

function systemError(code: string, what: string): Error {
  return Object.assign(new Error(`${code}: ${what}`), { code });
}
