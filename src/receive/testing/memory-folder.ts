import { SetsideError } from '../../base/index.ts';
import type {
  Arrival,
  ArrivalEnd,
  ArrivalOutcome,
  CameraFolder,
  FolderEntry,
  FolderErrorCode,
  OpenHow,
} from '../core/camera-folder.ts';

interface MemoryFile {
  readonly kind: 'file';
  bytes: Uint8Array;
  modifiedMs: number;
  /** Broken off: still incoming, may be resumed. */
  partial: boolean;
}

interface MemoryDirectory {
  readonly kind: 'folder';
  modifiedMs: number;
}

/** What a test may set to make the folder misbehave as a disk does. */
export interface MemoryFolderOptions {
  /** Bytes all files together may hold. */
  readonly capacityBytes?: number;
  /** Awaited before each write settles: a slow disk. */
  readonly beforeWrite?: (bytes: Uint8Array) => Promise<void>;
  /** Awaited before each finish settles. */
  readonly beforeFinish?: (end: ArrivalEnd) => Promise<void>;
  /** The size a file's own structure asks for, by name; less than that counts as cut short. */
  readonly expectedBytes?: (name: string) => number | null;
}

/**
 * A camera's folder in memory for tests, faithful to {@link CameraFolder}: what is kept is never lost or changed,
 * also when the view hides, replaces or renames it.
 */
export class MemoryFolder implements CameraFolder {
  /** Everything ever acknowledged, in order: what a real folder has on disk. */
  readonly originals: { readonly name: string; readonly bytes: Uint8Array }[] = [];
  /** How each arrival ended. */
  readonly ends: ArrivalEnd[] = [];
  arriving = 0;
  readonly #options: MemoryFolderOptions;
  readonly #entries = new Map<string, MemoryFile | MemoryDirectory>([
    ['/', { kind: 'folder', modifiedMs: 0 }],
  ]);
  readonly #busy = new Set<string>();
  readonly #cutBefore = new Map<string, string>();
  #opened = 0;

  constructor(options: MemoryFolderOptions = {}) {
    this.#options = options;
  }

  async list(path: string): Promise<readonly FolderEntry[]> {
    this.#folderAt(path);
    return [...this.#entries.keys()]
      .filter((entry) => entry !== '/' && parentOf(entry) === path)
      .sort()
      .map((entry) => this.#entryAt(entry))
      .filter((entry) => entry !== null);
  }

  async stat(path: string): Promise<FolderEntry | null> {
    return this.#entryAt(path);
  }

  async makeFolder(path: string): Promise<void> {
    if (this.#entries.has(path)) throw refuse('exists', path);
    this.#folderAt(parentOf(path));
    this.#entries.set(path, { kind: 'folder', modifiedMs: Date.now() });
  }

  async removeFolder(path: string): Promise<void> {
    this.#folderAt(path);
    if ((await this.list(path)).length > 0) throw refuse('not-empty', path);
    this.#entries.delete(path);
  }

  async rename(from: string, to: string): Promise<void> {
    const moved = this.#entries.get(from);
    if (moved === undefined) throw refuse('not-found', from);
    if (this.#entries.has(to)) throw refuse('exists', to);
    this.#folderAt(parentOf(to));
    for (const path of [...this.#entries.keys()]) {
      const entry = this.#entries.get(path);
      if (entry === undefined || (path !== from && !path.startsWith(`${from}/`))) continue;
      this.#entries.delete(path);
      this.#entries.set(to + path.slice(from.length), entry);
    }
  }

  async hide(path: string): Promise<void> {
    this.#fileAt(path);
    this.#entries.delete(path);
  }

  async setModified(path: string, modifiedMs: number): Promise<void> {
    this.#fileAt(path).modifiedMs = modifiedMs;
  }

  async open(path: string, how: OpenHow): Promise<Arrival> {
    this.#folderAt(parentOf(path));
    if (this.#busy.has(path)) throw refuse('busy', path);
    const there = this.#entries.get(path);
    if (there?.kind === 'folder') throw refuse('not-a-file', path);
    const held = there?.bytes ?? new Uint8Array(0);
    const offsetBytes = how.at === 'start' ? 0 : how.at === 'end' ? held.length : how.at.offsetBytes;
    if (offsetBytes > held.length) throw refuse('offset-beyond-end', path);
    if (this.#room() <= 0) throw refuse('disk-full', path);
    this.#busy.add(path);
    this.arriving += 1;
    this.#opened += 1;
    return this.#arrival(path, held.slice(0, offsetBytes), how.announcedBytes, String(this.#opened));
  }

  /** The bytes a path shows, null where there is no file. */
  read(path: string): Uint8Array | null {
    const entry = this.#entries.get(path);
    return entry?.kind === 'file' ? entry.bytes : null;
  }

  #arrival(path: string, before: Uint8Array, announcedBytes: number | null, id: string): Arrival {
    const parts: Uint8Array[] = [before];
    let failure: FolderErrorCode | null = null;
    let size = before.length;
    let last: Promise<void> = Promise.resolve();
    const take = async (bytes: Uint8Array): Promise<void> => {
      await this.#options.beforeWrite?.(bytes);
      if (failure !== null || this.#room() < size + bytes.length) {
        failure = 'disk-full';
        throw refuse('disk-full', path);
      }
      parts.push(bytes.slice());
      size += bytes.length;
    };
    return {
      id,
      offsetBytes: before.length,
      write: (bytes) => {
        const taken = last.then(() => take(bytes));
        last = taken.catch(() => {});
        return taken;
      },
      sync: () => last,
      finish: async (end) => {
        await last;
        await this.#options.beforeFinish?.(end);
        this.#busy.delete(path);
        this.arriving -= 1;
        this.ends.push(end);
        return this.#settle(path, joined(parts), end, failure, announcedBytes);
      },
    };
  }

  #settle(
    path: string,
    bytes: Uint8Array,
    end: ArrivalEnd,
    failure: FolderErrorCode | null,
    announcedBytes: number | null,
  ): ArrivalOutcome {
    const sizeBytes = bytes.length;
    const expectedBytes = this.#options.expectedBytes?.(nameOf(path)) ?? announcedBytes;
    const cut = end !== 'closed' || (expectedBytes !== null && sizeBytes < expectedBytes);
    const twice = end === 'closed' && cut && this.#cutBefore.get(path) === String(bytes);
    const partial = failure !== null || (cut && !twice);
    this.#entries.set(path, { kind: 'file', bytes, modifiedMs: Date.now(), partial });
    if (failure !== null) return { kind: 'failed', code: 'disk-full', sizeBytes };
    if (partial) {
      if (end === 'closed') this.#cutBefore.set(path, String(bytes));
      return { kind: 'broken-off', sizeBytes, expectedBytes };
    }
    this.originals.push({ name: nameOf(path), bytes });
    return twice
      ? { kind: 'kept-damaged', sizeBytes, expectedBytes }
      : { kind: 'kept', wholeness: 'unknown', sizeBytes };
  }

  #room(): number {
    const used = this.originals.reduce((sum, { bytes }) => sum + bytes.length, 0);
    return (this.#options.capacityBytes ?? Number.POSITIVE_INFINITY) - used;
  }

  #entryAt(path: string): FolderEntry | null {
    const entry = this.#entries.get(path);
    if (entry === undefined) return null;
    const sizeBytes = entry.kind === 'file' ? entry.bytes.length : 0;
    return { name: nameOf(path), kind: entry.kind, sizeBytes, modifiedMs: entry.modifiedMs };
  }

  #folderAt(path: string): void {
    const entry = this.#entries.get(path);
    if (entry === undefined) throw refuse('not-found', path);
    if (entry.kind !== 'folder') throw refuse('not-a-folder', path);
  }

  #fileAt(path: string): MemoryFile {
    const entry = this.#entries.get(path);
    if (entry === undefined) throw refuse('not-found', path);
    if (entry.kind !== 'file') throw refuse('not-a-file', path);
    return entry;
  }
}

function refuse(code: FolderErrorCode, path: string): SetsideError {
  // A folder's message may name paths of the computer; none may reach a client, and a test looks for this one.
  return new SetsideError(code, `/home/host/secret${path}: ${code}`);
}

function parentOf(path: string): string {
  return path.slice(0, path.lastIndexOf('/')) || '/';
}

function nameOf(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
