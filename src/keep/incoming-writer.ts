import { type EpochMs, MiB } from '../base/index.ts';
import type { DiskFile } from './disk.ts';
import { diskError } from './errors.ts';
import type { HashSession } from './hash-session.ts';
import type { SyncLanes } from './sync-lanes.ts';

/** Most bytes given to the disk in one call: several small buffers of a fast line become one write. */
export const gatherBytesMax: number = 4 * MiB;
/** Systems take at least so many buffers in one call (POSIX IOV_MAX is 16 or more, Linux 1024). */
export const gatherBuffersMax = 16;
/**
 * A file is synced on its way each time so much more has come and a lane is free: the disk works while the line does, and the last sync, which the camera waits for, has little left (bench `receive`: half the wait behind the last
 * byte of 25 MB). Much smaller pieces would keep a slow disk busy with its own bookkeeping.
 */
export const syncEveryBytes: number = 4 * MiB;
/**
 * Most bytes that may wait for their sync; beyond, the line waits. What a slow disk has not taken when the last byte
 * comes is what the camera waits for, and clients give up: after 30 s of silence the least patient of those tried.
 * 64 MiB are 13 s at 5 MB/s.
 */
export const unsyncedBytesMax: number = 64 * MiB;
/** After so much more is durable, a long file's resume after power loss gets a record to rely on. */
export const recordEveryBytes: number = 64 * MiB;

interface Waiting {
  readonly bytes: Uint8Array;
  readonly hashed: Promise<void>;
  readonly resolve: () => void;
  readonly reject: (cause: unknown) => void;
}

export interface WriterHooks {
  readonly now: () => EpochMs;
  /** More bytes are in the file. */
  readonly grown: (sizeBytes: number, atMs: EpochMs) => void;
  /** So many bytes are durable; told each {@link recordEveryBytes}. */
  readonly synced: (sizeBytes: number) => void;
  /** Shared by all files. */
  readonly lanes: SyncLanes;
}

/** How the bytes of one connection ended up. */
export interface WrittenBytes {
  readonly sizeBytes: number;
  /** Null where a worker was lost or a write failed: then the file has to be read again to know. */
  readonly sha256: string | null;
  readonly failure: unknown;
}

/** Takes a file's bytes in order: onto the disk at the end of what is held, and into its hash, side by side. */
export class IncomingWriter {
  readonly file: DiskFile;
  /** Of everything that is held; whoever ends the writer ends it or keeps it for later. */
  readonly hash: HashSession;
  readonly #hooks: WriterHooks;
  readonly #queue: Waiting[] = [];
  #running: Promise<void> | null = null;
  #syncing: Promise<void> | null = null;
  #syncedBytes: number;
  #recordedBytes: number;
  #durable: Promise<void> | null = null;
  #failure: unknown = null;
  #syncFailure: unknown = null;
  heldBytes: number;
  firstByteMs: EpochMs | null = null;
  lastByteMs: EpochMs | null = null;

  constructor(file: DiskFile, hash: HashSession, heldBytes: number, hooks: WriterHooks) {
    this.file = file;
    this.hash = hash;
    this.#hooks = hooks;
    this.heldBytes = heldBytes;
    this.#syncedBytes = heldBytes;
    this.#recordedBytes = heldBytes;
  }

  /** Settles when the bytes are written and hashed. A lost hash is no reason to refuse bytes. */
  write(bytes: Uint8Array): Promise<void> {
    if (this.#failure !== null) return Promise.reject(diskError(this.#failure));
    if (bytes.length === 0) return Promise.resolve();
    this.lastByteMs = this.#hooks.now();
    this.firstByteMs ??= this.lastByteMs;
    const hashed = this.hash.update(bytes).catch(() => {});
    return new Promise((resolve, reject) => {
      this.#queue.push({ bytes, hashed, resolve, reject });
      this.#running ??= this.#run();
    });
  }

  /** Makes durable what is written by now, and gives how much that is. */
  async sync(): Promise<number> {
    await this.#running;
    const sizeBytes = this.heldBytes;
    await this.#syncing;
    if (this.#failure === null) {
      this.#syncing ??= this.#syncNow();
      await this.#syncing;
    }
    if (this.#failure !== null) throw this.#failure;
    return sizeBytes;
  }

  /** Waits for all writes. The last sync begins beside the last of the hash; {@link durable} waits for it. */
  async end(): Promise<WrittenBytes> {
    await this.#running;
    if (this.#failure === null) this.durable().catch(() => {});
    const sha256 = await this.hash.digest().catch(() => null);
    if (this.#failure === null) return { sizeBytes: this.heldBytes, sha256, failure: null };
    // The failed write may have left some of its bytes; they are the camera's too.
    const sizeBytes = await this.file.sizeBytes().catch(() => this.heldBytes);
    return { sizeBytes, sha256: null, failure: this.#failure };
  }

  /**
   * Settles when everything written is durable. Rejects where any sync failed, for good: Linux tells of a failed sync
   * once and has then forgotten what it could not write (fsync(2), EIO).
   */
  durable(): Promise<void> {
    this.#durable ??= this.#syncLast();
    return this.#durable;
  }

  async #syncLast(): Promise<void> {
    // One that is under way may not know the last bytes, but it may be the one that hears of a failure.
    await Promise.all([this.file.sync(), this.#syncing]);
    if (this.#syncFailure !== null) throw this.#syncFailure;
  }

  async #run(): Promise<void> {
    while (this.#queue.length > 0) {
      await this.#letDiskCatchUp();
      await this.#writeSome(this.#gather());
    }
    this.#running = null;
  }

  async #letDiskCatchUp(): Promise<void> {
    while (this.#failure === null && this.heldBytes - this.#syncedBytes >= unsyncedBytesMax) {
      this.#syncing ??= this.#syncNow();
      await this.#syncing;
    }
  }

  #gather(): Waiting[] {
    let count = 0;
    let sizeBytes = 0;
    for (const { bytes } of this.#queue) {
      if (count > 0 && (count >= gatherBuffersMax || sizeBytes + bytes.length > gatherBytesMax)) break;
      count += 1;
      sizeBytes += bytes.length;
    }
    return this.#queue.splice(0, count);
  }

  async #writeSome(some: readonly Waiting[]): Promise<void> {
    try {
      if (this.#failure !== null) throw this.#failure;
      await this.file.write(
        some.map(({ bytes }) => bytes),
        this.heldBytes,
      );
    } catch (cause) {
      this.#failure ??= cause;
      for (const waiting of some) waiting.reject(diskError(cause));
      return;
    }
    this.heldBytes += some.reduce((sum, { bytes }) => sum + bytes.length, 0);
    for (const waiting of some) waiting.hashed.then(waiting.resolve);
    this.#hooks.grown(this.heldBytes, this.#hooks.now());
    if (this.heldBytes - this.#syncedBytes < syncEveryBytes) return;
    this.#syncing ??= this.#hooks.lanes.tryRun(() => this.#syncNow());
  }

  async #syncNow(): Promise<void> {
    const sizeBytes = this.heldBytes;
    try {
      await this.file.sync();
      this.#syncedBytes = sizeBytes;
      this.#record(sizeBytes);
    } catch (cause) {
      this.#syncFailure ??= cause;
      this.#failure ??= cause;
    }
    this.#syncing = null;
  }
  #record(sizeBytes: number): void {
    if (sizeBytes - this.#recordedBytes < recordEveryBytes) return;
    this.#recordedBytes = sizeBytes;
    this.#hooks.synced(sizeBytes);
  }
}
