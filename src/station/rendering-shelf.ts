import { readdir, rm, rmdir, stat, utimes } from 'node:fs/promises';
import { dirname, join } from 'node:path';

export interface RenderingShelfOptions {
  readonly folder: string;
  /** What the renderings may take together, bytes. */
  readonly bytesMax: number;
  readonly now: () => number;
}

/**
 * What was asked for so lately stays, over the bound if need be: somebody may be reading it, or a smaller size is being made
 * of it. A slow client takes a minute for a picture.
 */
export const restMs: number = 5 * 60_000;

/** When a rendering was used last is noted on the disk this often, for the station after this one. */
const noteEveryMs = 3_600_000;

/** Names that `Renderings` gives, and no other: `AB/SHA-256/TREATMENT-SIZE.FORMAT`. */
const ownFile = /^[0-9a-f]{2}\/[0-9a-f]{64}\/\d+-[0-9a-z-]+-(base|\d+)\.(jpg|webp|png)$/;

interface Shelved {
  readonly bytes: number;
  readonly usedMs: number;
}

/** Keeps renderings within a bound: those that were not asked for the longest go first, and nothing else ever does. */
export class RenderingShelf {
  readonly #options: RenderingShelfOptions;
  /** Path inside the folder to what is known of it, the one used longest ago first: a Map keeps the order of insertion. */
  #files: Promise<Map<string, Shelved>> | null = null;
  readonly #notedMs = new Map<string, number>();

  constructor(options: RenderingShelfOptions) {
    this.#options = options;
  }

  /** Notes that a rendering is being read, or was made; makes room where that is wanted. `path` is absolute. */
  async used(path: string): Promise<void> {
    const { folder, now } = this.#options;
    const name = path.slice(folder.length + 1).replaceAll('\\', '/');
    const bytes = (await stat(path).catch(() => null))?.size ?? 0;
    if (bytes === 0 || !ownFile.test(name)) return;
    const files = await this.#listed();
    files.delete(name);
    files.set(name, { bytes, usedMs: now() });
    if (now() - (this.#notedMs.get(name) ?? Number.NEGATIVE_INFINITY) >= noteEveryMs) {
      this.#notedMs.set(name, now());
      const at = new Date(now());
      await utimes(path, at, at).catch(() => undefined);
    }
    await this.#makeRoom(files);
  }

  async #makeRoom(files: Map<string, Shelved>): Promise<void> {
    const { folder, bytesMax, now } = this.#options;
    let total = 0;
    for (const { bytes } of files.values()) total += bytes;
    for (const [oldest, { bytes, usedMs }] of files) {
      if (total <= bytesMax || now() - usedMs < restMs) return;
      files.delete(oldest);
      this.#notedMs.delete(oldest);
      total -= bytes;
      const path = join(folder, oldest);
      // One that cannot be removed now, as while it is open elsewhere, is found again by the next station.
      await rm(path, { force: true }).catch(() => undefined);
      // Goes only where nothing is left in it.
      await rmdir(dirname(path)).catch(() => undefined);
    }
  }

  /** What a station before this one left, the one used longest ago first. */
  #listed(): Promise<Map<string, Shelved>> {
    this.#files ??= list(this.#options.folder);
    return this.#files;
  }
}

async function list(folder: string): Promise<Map<string, Shelved>> {
  const found: [string, Shelved][] = [];
  const names = async (path: string): Promise<readonly string[]> =>
    readdir(join(folder, path)).catch(() => []);
  for (const first of await names('')) {
    if (!/^[0-9a-f]{2}$/.test(first)) continue;
    for (const hash of await names(first)) {
      for (const file of await names(join(first, hash))) {
        const name = `${first}/${hash}/${file}`;
        if (!ownFile.test(name)) continue;
        const at = await stat(join(folder, name)).catch(() => null);
        if (at?.isFile()) found.push([name, { bytes: at.size, usedMs: at.mtimeMs }]);
      }
    }
  }
  return new Map(found.sort(([, one], [, other]) => one.usedMs - other.usedMs));
}
