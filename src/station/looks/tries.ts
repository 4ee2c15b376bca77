import { randomUUID } from 'node:crypto';
import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { SetsideError } from '../../base/index.ts';
import { callOff, type DevelopPool, newJobBoard } from '../../workers/index.ts';
import type { RenderSource } from '../renderings.ts';
import { SharedQueue } from '../shared-queue.ts';

/** One at a time: a page that turns knobs must not keep new frames waiting for more than one picture. */
const lanes = 1;
/** Pages of operators that try at once; beyond that somebody has left a program running. */
const waitingMax = 8;

/** Pictures under looks that nobody has saved: made, handed out, and gone. Of the tries of one page the newest wins. */
export class Tries {
  readonly #folder: string;
  readonly #pool: Pick<DevelopPool, 'render'>;
  readonly #queue = new SharedQueue<Uint8Array>({ lanes, waitingMax });
  readonly #newest = new Map<string, AbortController>();
  #ready: Promise<unknown> | null = null;

  constructor(folder: string, pool: Pick<DevelopPool, 'render'>) {
    this.#folder = folder;
    this.#pool = pool;
  }

  /**
   * Does what a page tries with a signal that ends it once a newer try of the page begins. Rejects `try-overtaken` then, and
   * with the signal's reason.
   */
  async of<Result>(
    page: string,
    signal: AbortSignal,
    work: (signal: AbortSignal) => Promise<Result>,
  ): Promise<Result> {
    const own = new AbortController();
    this.#newest.get(page)?.abort(new SetsideError('try-overtaken', 'a newer try of the same page began'));
    this.#newest.set(page, own);
    try {
      const either = AbortSignal.any([signal, own.signal]);
      const result = await work(either);
      either.throwIfAborted();
      return result;
    } finally {
      if (this.#newest.get(page) === own) this.#newest.delete(page);
    }
  }

  /** The JPEG; half the original's size for null. What has begun stops at its next rows. Rejects `busy` and as `DevelopPool.render`. */
  render(source: RenderSource, longEdgePx: number | null, signal: AbortSignal): Promise<Uint8Array> {
    return this.#queue.run(randomUUID(), () => this.#make(source, longEdgePx, signal), signal);
  }

  async #make(source: RenderSource, longEdgePx: number | null, signal: AbortSignal): Promise<Uint8Array> {
    // What a station that was killed left is no use to anybody.
    this.#ready ??= rm(this.#folder, { recursive: true, force: true }).then(() =>
      mkdir(this.#folder, { recursive: true }),
    );
    await this.#ready;
    const outPath = join(this.#folder, `${randomUUID()}.jpg`);
    const { path, kind, look, balance } = source;
    const size = longEdgePx === null ? 'half' : { longEdgePx };
    // Not by ending the thread: the next try of the same page wants the raw that it has decoded.
    const board = newJobBoard();
    const stop = (): void => callOff(board);
    signal.addEventListener('abort', stop);
    try {
      signal.throwIfAborted();
      await this.#pool.render({ path, kind, look, balance, size, format: 'jpeg', outPath, board });
      return await readFile(outPath);
    } finally {
      signal.removeEventListener('abort', stop);
      await rm(outPath, { force: true });
    }
  }
}
