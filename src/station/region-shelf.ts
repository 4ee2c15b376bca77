import { randomBytes } from 'node:crypto';
import { mkdir, readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

interface ShelfOptions {
  /** Made when something is put there; may be deleted at any time. */
  readonly folder: string;
  /** The files together, bytes. */
  readonly bytesMax: number;
}

/**
 * Parts of pictures on disk, within a bound: anybody may ask for a part at any place of any frame, and the ones that
 * were not asked for the longest go first.
 */
export class RegionShelf {
  readonly #options: ShelfOptions;
  /** Name to bytes, least recently used first: a Map keeps the order of insertion. */
  #files: Promise<Map<string, number>> | null = null;

  constructor(options: ShelfOptions) {
    this.#options = options;
  }

  /** Where a file of this name lies or is to be put. The folder is there. */
  async place(name: string): Promise<string> {
    await mkdir(this.#options.folder, { recursive: true });
    return join(this.#options.folder, name);
  }

  /** Whether the file is there now; then it counts as used. */
  async has(name: string): Promise<boolean> {
    const files = await this.#listed();
    const bytes = await sizeOf(join(this.#options.folder, name));
    files.delete(name);
    if (bytes !== null) files.set(name, bytes);
    return bytes !== null;
  }

  /** Puts a file there, whole or not at all. */
  async put(name: string, bytes: Uint8Array): Promise<void> {
    const path = await this.place(name);
    const temporary = `${path}.${randomBytes(6).toString('hex')}.part`;
    await writeFile(temporary, bytes, { flag: 'wx' });
    await rename(temporary, path);
    await this.added(name, bytes.length);
  }

  /** Notes a file that was put there, and makes room for it. */
  async added(name: string, bytes: number): Promise<void> {
    const files = await this.#listed();
    files.delete(name);
    files.set(name, bytes);
    let total = [...files.values()].reduce((sum, each) => sum + each, 0);
    for (const [oldest, size] of files) {
      if (total <= this.#options.bytesMax || oldest === name) return;
      files.delete(oldest);
      total -= size;
      // One that cannot be removed now is found again by the next station.
      await rm(join(this.#options.folder, oldest), { force: true }).catch(() => undefined);
    }
  }

  /** What a station before this one left, oldest first. */
  #listed(): Promise<Map<string, number>> {
    this.#files ??= list(this.#options.folder);
    return this.#files;
  }
}

async function list(folder: string): Promise<Map<string, number>> {
  const names = await readdir(folder).catch(() => []);
  const found = [];
  for (const name of names) {
    const at = await stat(join(folder, name)).catch(() => null);
    if (at?.isFile()) found.push({ name, bytes: at.size, usedMs: at.mtimeMs });
  }
  found.sort((one, other) => one.usedMs - other.usedMs);
  return new Map(found.map(({ name, bytes }) => [name, bytes]));
}

async function sizeOf(path: string): Promise<number | null> {
  const at = await stat(path).catch(() => null);
  return at === null || at.size === 0 ? null : at.size;
}
