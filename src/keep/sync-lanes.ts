/**
 * Most files that are synced on their way at a time. A sync holds one of the few threads that the system's calls run on
 * (four, libuv's default) for as long as the disk takes. With a lane for each of eight cameras a slow disk would leave
 * none to write a byte, to sync the journal, or to read for the page. With two, eight files at once ended later than they
 * had to on a fast disk: too much of each was left to its last sync.
 */
export const syncLanesMax = 3;

/** Bounds the syncs that nobody waits for. Those that a camera waits for do not ask here. */
export class SyncLanes {
  #running = 0;

  /** Starts the work where a lane is free, and gives its end; null where none is. */
  tryRun(work: () => Promise<void>): Promise<void> | null {
    if (this.#running >= syncLanesMax) return null;
    this.#running += 1;
    return work().finally(() => {
      this.#running -= 1;
    });
  }
}
