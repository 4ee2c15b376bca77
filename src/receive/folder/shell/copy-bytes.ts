import { createHash, type Hash } from 'node:crypto';
import type { Arrival } from '../../core/camera-folder.ts';
import type { BufferPool } from '../../shell/buffer-pool.ts';
import type { SourceFile } from './source-file.ts';

/** Carries the bytes of a file into an arrival, as far as they are there, several writes under way at once. */
export class ByteCopy {
  copiedBytes = 0;
  readonly #source: SourceFile;
  readonly #arrival: Arrival;
  readonly #pool: BufferPool;
  readonly #free: Uint8Array[] = [];
  readonly #under = new Set<Promise<void>>();
  #hash: Hash | null;
  #failure: unknown = null;

  /** `isFollowed`: the file may still be changed, so what was copied is remembered by its hash. */
  constructor(source: SourceFile, arrival: Arrival, pool: BufferPool, buffers: number, isFollowed: boolean) {
    this.#source = source;
    this.#arrival = arrival;
    this.#pool = pool;
    this.#hash = isFollowed ? createHash('sha256') : null;
    for (let count = 0; count < buffers; count += 1) this.#free.push(pool.take());
  }

  /** Copies up to `untilBytes` and settles when all is written. Rejects where reading or writing fails. */
  async copyTo(untilBytes: number, signal: AbortSignal): Promise<void> {
    while (this.copiedBytes < untilBytes && this.#failure === null) {
      signal.throwIfAborted();
      const buffer = this.#free.pop();
      if (buffer === undefined) {
        await Promise.race(this.#under);
        continue;
      }
      const room = buffer.subarray(0, Math.min(buffer.length, untilBytes - this.copiedBytes));
      const count = await this.#source.read(room, this.copiedBytes).catch((trouble: unknown) => {
        this.#free.push(buffer);
        throw trouble;
      });
      if (count === 0) {
        this.#free.push(buffer);
        break;
      }
      this.copiedBytes += count;
      this.#hash?.update(room.subarray(0, count));
      this.#write(buffer, room.subarray(0, count));
    }
    await Promise.all(this.#under);
    if (this.#failure !== null) throw this.#failure;
  }

  /** Whether the source still begins with the bytes that were copied. */
  async isUnchanged(): Promise<boolean> {
    if (this.#hash === null) return true;
    const copied = this.#hash.copy().digest('hex');
    return (await this.#source.sha256(this.copiedBytes)) === copied;
  }

  /** Waits for what is under way and gives the buffers back. */
  async end(): Promise<void> {
    await Promise.all(this.#under);
    for (const buffer of this.#free.splice(0)) this.#pool.give(buffer);
    this.#hash = null;
  }

  #write(buffer: Uint8Array, bytes: Uint8Array): void {
    const written: Promise<void> = this.#arrival
      .write(bytes)
      .catch((trouble: unknown) => {
        this.#failure ??= trouble ?? 'unknown';
      })
      .then(() => {
        this.#free.push(buffer);
        this.#under.delete(written);
      });
    this.#under.add(written);
  }
}
