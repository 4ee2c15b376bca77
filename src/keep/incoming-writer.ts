import { type EpochMs, MiB } from '../base/index.ts';
import type { DiskFile } from './disk.ts';
import { diskError } from './errors.ts';
import type { HashSession } from './hash-session.ts';

/** Most bytes given to the disk in one call: several small buffers of a fast line become one write. */
export const gatherBytesMax: number = 4 * MiB;
/** Systems take at least so many buffers in one call (POSIX IOV_MAX is 16 or more, Linux 1024). */
export const gatherBuffersMax = 16;
/**
 * A long file is synced each time so much has come: after power loss a resume may rely on it, and the last sync of a
 * video of many gigabytes does not take minutes. An ordinary frame is synced once, at its end.
 */
export const syncEveryBytes: number = 64 * MiB;

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
  /** So many bytes are durable. */
  readonly synced: (sizeBytes: number) => void;
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
  readonly #hash: HashSession;
  readonly #hooks: WriterHooks;
  readonly #queue: Waiting[] = [];
  #running: Promise<void> | null = null;
  #syncing: Promise<void> | null = null;
  #syncedBytes: number;
  #failure: unknown = null;
  heldBytes: number;
  firstByteMs: EpochMs | null = null;
  lastByteMs: EpochMs | null = null;

  constructor(file: DiskFile, hash: HashSession, heldBytes: number, hooks: WriterHooks) {
    this.file = file;
    this.#hash = hash;
    this.#hooks = hooks;
    this.heldBytes = heldBytes;
    this.#syncedBytes = heldBytes;
  }

  /** Settles when the bytes are written and hashed. A lost hash is no reason to refuse bytes. */
  write(bytes: Uint8Array): Promise<void> {
    if (this.#failure !== null) return Promise.reject(diskError(this.#failure));
    if (bytes.length === 0) return Promise.resolve();
    this.lastByteMs = this.#hooks.now();
    this.firstByteMs ??= this.lastByteMs;
    const hashed = this.#hash.update(bytes).catch(() => {});
    return new Promise((resolve, reject) => {
      this.#queue.push({ bytes, hashed, resolve, reject });
      this.#running ??= this.#run();
    });
  }

  /** Waits for all writes. The file stays open for the last sync. */
  async end(): Promise<WrittenBytes> {
    await this.#running;
    await this.#syncing;
    const sha256 = await this.#hash.digest().catch(() => null);
    if (this.#failure === null) return { sizeBytes: this.heldBytes, sha256, failure: null };
    // The failed write may have left some of its bytes; they are the camera's too.
    const sizeBytes = await this.file.sizeBytes().catch(() => this.heldBytes);
    return { sizeBytes, sha256: null, failure: this.#failure };
  }

  async #run(): Promise<void> {
    while (this.#queue.length > 0) await this.#writeSome(this.#gather());
    this.#running = null;
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
    if (this.heldBytes - this.#syncedBytes >= syncEveryBytes) this.#syncing ??= this.#syncNow();
  }

  async #syncNow(): Promise<void> {
    const sizeBytes = this.heldBytes;
    try {
      await this.file.sync();
      this.#syncedBytes = sizeBytes;
      this.#hooks.synced(sizeBytes);
    } catch (cause) {
      this.#failure ??= cause;
    }
    this.#syncing = null;
  }
}
