import { createHash, type Hash } from 'node:crypto';
import { MiB } from '../base/index.ts';
import type { Disk } from './disk.ts';
import type { Hashing, HashSession } from './hash-session.ts';

/** Hashing on the calling thread, through the disk it was given. */
export class InlineHashing implements Hashing {
  readonly #disk: Disk;

  constructor(disk: Disk) {
    this.#disk = disk;
  }

  begin(): HashSession {
    return new InlineSession(this.#disk);
  }

  async close(): Promise<void> {}
}

class InlineSession implements HashSession {
  readonly #disk: Disk;
  readonly #hash: Hash = createHash('sha256');
  /** Settles when everything asked so far is done. */
  #last: Promise<void> = Promise.resolve();

  constructor(disk: Disk) {
    this.#disk = disk;
  }

  update(bytes: Uint8Array): Promise<void> {
    return this.#next(async () => {
      this.#hash.update(bytes);
    });
  }

  updateFromFile(path: string, sizeBytes: number): Promise<void> {
    return this.#next(() => hashFile(this.#disk, this.#hash, path, sizeBytes));
  }

  async digest(): Promise<string> {
    await this.#last;
    // A copy, since a digest ends the hash it is taken of.
    return this.#hash.copy().digest('hex');
  }

  end(): void {}

  #next(step: () => Promise<void>): Promise<void> {
    const done = this.#last.then(step);
    this.#last = done;
    // Whoever asked for the step hears of its failure, and so does digest(); nobody else has to.
    done.catch(() => {});
    return done;
  }
}

async function hashFile(disk: Disk, hash: Hash, path: string, sizeBytes: number): Promise<void> {
  const file = await disk.openFile(path, 'read');
  try {
    const buffer = new Uint8Array(MiB);
    for (let position = 0; position < sizeBytes; ) {
      const count = await file.read(buffer.subarray(0, Math.min(MiB, sizeBytes - position)), position);
      if (count === 0) throw new Error(`${path} is shorter than the ${sizeBytes} bytes to be hashed`);
      hash.update(buffer.subarray(0, count));
      position += count;
    }
  } finally {
    await file.close();
  }
}
