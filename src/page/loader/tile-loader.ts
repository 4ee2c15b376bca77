export interface TileLoaderOptions {
  /** Decoded bytes kept, beside those that are wanted now. */
  readonly cacheBytesMax: number;
  /** Tiles on their way at a time. */
  readonly lanes: number;
  /** Fetches and decodes one; rejects when the signal is aborted. */
  readonly fetchTile: (address: string, signal: AbortSignal) => Promise<ImageBitmap>;
  /** A wanted tile has come. */
  readonly onTile: () => void;
}

/** After a failure a tile is asked for again; the waits, then the last one for ever. */
const retryMs: readonly number[] = [500, 2_000, 8_000];
const bytesPerPixel = 4;

/**
 * Fetches the tiles that are wanted in the order of the wish, a few at a time. What is not wanted any longer is
 * cancelled; what has come is kept within a bound.
 */
export class TileLoader {
  readonly #options: TileLoaderOptions;
  #wanted: readonly string[] = [];
  /** Least recently used first: a Map keeps the order of insertion. */
  readonly #tiles = new Map<string, ImageBitmap>();
  readonly #coming = new Map<string, AbortController>();
  readonly #failed = new Map<string, Failure>();

  constructor(options: TileLoaderOptions) {
    this.#options = options;
  }

  /** Bytes of every decoded tile. */
  get bytes(): number {
    return [...this.#tiles.values()].reduce((total, tile) => total + bytesOf(tile), 0);
  }

  /** Wanted tiles that have not come yet. */
  get missing(): number {
    return this.#wanted.filter((address) => !this.#tiles.has(address)).length;
  }

  /** The tile, where it is here. Do not keep it: it is closed when it falls out of the cache. */
  get(address: string): ImageBitmap | null {
    return this.#tiles.get(address) ?? null;
  }

  /** From now on these, the first one first. */
  want(addresses: readonly string[]): void {
    this.#wanted = addresses;
    const wanted = new Set(addresses);
    for (const [address, cancel] of this.#coming) {
      if (wanted.has(address)) continue;
      this.#coming.delete(address);
      cancel.abort();
    }
    for (const [address, { timer }] of this.#failed) {
      if (wanted.has(address)) continue;
      clearTimeout(timer);
      this.#failed.delete(address);
    }
    for (const address of addresses) this.#touch(address);
    this.#next();
  }

  /** Gives everything up. */
  close(): void {
    this.want([]);
    for (const tile of this.#tiles.values()) tile.close();
    this.#tiles.clear();
  }

  #next(): void {
    for (const address of this.#wanted) {
      if (this.#coming.size >= this.#options.lanes) return;
      const waits = this.#failed.get(address)?.timer !== undefined;
      if (!waits && !this.#tiles.has(address) && !this.#coming.has(address)) this.#fetch(address);
    }
  }

  #fetch(address: string): void {
    const cancel = new AbortController();
    this.#coming.set(address, cancel);
    this.#options.fetchTile(address, cancel.signal).then(
      (tile) => {
        if (cancel.signal.aborted) return tile.close();
        this.#coming.delete(address);
        this.#failed.delete(address);
        this.#tiles.set(address, tile);
        this.#makeRoom();
        this.#options.onTile();
        this.#next();
      },
      () => {
        if (cancel.signal.aborted) return;
        this.#coming.delete(address);
        this.#tryLater(address);
        this.#next();
      },
    );
  }

  #tryLater(address: string): void {
    const failures = this.#failed.get(address)?.failures ?? 0;
    const timer = setTimeout(
      () => {
        this.#failed.set(address, { failures: failures + 1, timer: undefined });
        this.#next();
      },
      retryMs[Math.min(failures, retryMs.length - 1)] ?? 0,
    );
    this.#failed.set(address, { failures, timer });
  }

  #touch(address: string): void {
    const tile = this.#tiles.get(address);
    if (tile === undefined) return;
    this.#tiles.delete(address);
    this.#tiles.set(address, tile);
  }

  /** The wanted ones stay, however many: they are as many as the screen holds. */
  #makeRoom(): void {
    let bytes = this.bytes;
    const wanted = new Set(this.#wanted);
    for (const [address, tile] of this.#tiles) {
      if (bytes <= this.#options.cacheBytesMax) return;
      if (wanted.has(address)) continue;
      this.#tiles.delete(address);
      bytes -= bytesOf(tile);
      tile.close();
    }
  }
}

interface Failure {
  readonly failures: number;
  /** While it waits to be asked for again. */
  readonly timer: ReturnType<typeof setTimeout> | undefined;
}

function bytesOf({ width, height }: ImageBitmap): number {
  return width * height * bytesPerPixel;
}
