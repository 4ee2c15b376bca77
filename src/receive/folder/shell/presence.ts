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
    let isScanned = false;
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
    watcher.on('add', (whole) => this.#events.seen(pathOf(whole), isScanned));
    watcher.on('change', (whole) => this.#events.seen(pathOf(whole), true));
    watcher.on('unlink', (whole) => this.#events.gone(pathOf(whole)));
    watcher.on('error', (trouble) => this.#troubled(trouble));
    watcher.on('ready', () => {
      isScanned = true;
      this.#events.looked();
    });
    return watcher;
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
