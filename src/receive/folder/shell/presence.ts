import { realpath, stat } from 'node:fs/promises';
import { relative, sep } from 'node:path';
import { type FSWatcher, watch } from 'chokidar';
import { errorCode } from '../../../base/index.ts';
import { isPassedOver } from '../core/passed-over.ts';

export interface PresenceEvents {
  /** The folder is looked through from its start; `looked` follows when all files that lie there were `seen`. */
  looking(): void;
  looked(): void;
  /** A file is there, new or changed. `path` is below the folder, `/` between names. */
  seen(path: string, isFresh: boolean): void;
  gone(path: string): void;
  /** A folder turned up, or all were read: what came into one before it was watched is not told, and has to be looked for. */
  unsure(): void;
  trouble(trouble: unknown): void;
}

/** A folder that is there: where it really lies, and by what it is known. Another card under the same path is another. */
export interface Place {
  readonly path: string;
  readonly identity: string;
}

/** The place of a folder, links to it followed; null where there is none to read. */
export async function placeOf(folder: string): Promise<Place | null> {
  try {
    const path = await realpath(folder);
    const found = await stat(path);
    return found.isDirectory() ? { path, identity: `${path} ${found.dev} ${found.ino}` } : null;
  } catch {
    // Whatever the reason, and a card that is pulled out has many: it is away, and looked for again.
    return null;
  }
}

/** What the system says when it will not tell of changes any more; then they are looked for. */
const outOfWatches = ['ENOSPC', 'EMFILE', 'ENFILE'];
/** Looking at every file costs: so seldom. */
const pollingMs = 2_000;

/** One stay of a folder, from when it is there until it goes: what is in it, and what happens to it. */
export class Presence {
  readonly place: Place;
  readonly #depthMax: number;
  readonly #events: PresenceEvents;
  readonly #gone = new AbortController();
  #watcher: FSWatcher;
  #isPolling = false;
  /** The watcher has told all that lay there. */
  #isScanned = false;
  /** Paths that were told and not gone since. */
  readonly #told = new Set<string>();

  /** Files that are there already are told first, as not fresh. */
  constructor(place: Place, depthMax: number, events: PresenceEvents) {
    this.place = place;
    this.#depthMax = depthMax;
    this.#events = events;
    this.#watcher = this.#watch();
  }

  /** Aborted when the folder goes. */
  get signal(): AbortSignal {
    return this.#gone.signal;
  }

  /** Tells those of these files, below the folder, that the watcher did not tell. */
  tellMissed(files: readonly string[]): void {
    if (!this.#isScanned) return;
    for (const path of files) if (!this.#told.has(path)) this.#seen(path, false);
  }

  /** Tells all files anew. */
  scanAgain(): void {
    void this.#watcher.close();
    if (!this.signal.aborted) this.#watcher = this.#watch();
  }

  async close(why: 'away' | 'stopping' | 'dismissed'): Promise<void> {
    this.#gone.abort(why);
    await this.#watcher.close();
  }

  #watch(): FSWatcher {
    const { path: root } = this.place;
    const pathOf = (whole: string): string => relative(root, whole).split(sep).join('/');
    this.#isScanned = false;
    this.#events.looking();
    const watcher = watch(root, {
      followSymlinks: false,
      depth: this.#depthMax,
      ignorePermissionErrors: true,
      // Whether a file is whole is decided by its bytes, not by a timer of the watcher.
      awaitWriteFinish: false,
      atomic: false,
      usePolling: this.#isPolling,
      interval: pollingMs,
      binaryInterval: pollingMs,
      ignored: (whole) =>
        pathOf(whole)
          .split('/')
          .some((name) => isPassedOver(name)),
    });
    watcher.on('add', (whole) => this.#seen(pathOf(whole), this.#isScanned));
    watcher.on('change', (whole) => this.#seen(pathOf(whole), true));
    watcher.on('addDir', () => this.#isScanned && this.#events.unsure());
    watcher.on('unlink', (whole) => {
      this.#told.delete(pathOf(whole));
      this.#events.gone(pathOf(whole));
    });
    watcher.on('error', (trouble) => this.#troubled(trouble));
    watcher.on('ready', () => {
      if (watcher !== this.#watcher) return;
      this.#isScanned = true;
      this.#events.looked();
      // The watcher reads a folder and then asks to be told of changes: what comes between the two it never tells.
      this.#events.unsure();
    });
    return watcher;
  }

  #seen(path: string, isFresh: boolean): void {
    this.#told.add(path);
    this.#events.seen(path, isFresh);
  }

  #troubled(trouble: unknown): void {
    if (this.signal.aborted) return;
    if (!this.#isPolling && outOfWatches.includes(errorCode(trouble))) {
      this.#isPolling = true;
      this.scanAgain();
    } else {
      this.#events.trouble(trouble);
    }
  }
}
