import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import type { Finding } from '../../facts/index.ts';
import type { Job } from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { readSidecar, setAside, writeSidecar } from './sidecar-file.ts';
import { sidecarPaths } from './sidecar-path.ts';
import { foundSidecar, sidecarText } from './sidecar-text.ts';

export interface SidecarWriterOptions {
  readonly homePath: string;
  readonly row: (frame: string) => Promise<FrameRow | null>;
  readonly job: (code: string) => Job | null;
  /** Something to be told, such as a sidecar that another program had changed. */
  readonly tell: (finding: Finding) => void;
  readonly trouble: (thrown: unknown) => void;
}

/**
 * Writes what people said of frames beside their originals, one at a time, behind everything else: a camera never waits for
 * it. Only frames that somebody marked have a sidecar. They are derived: each can be written again from the journal.
 */
export class SidecarWriter {
  readonly #options: SidecarWriterOptions;
  /** A frame that waits is written as it is when its turn comes, so it waits once. */
  readonly #waiting = new Set<string>();
  #running: Promise<void> | null = null;
  #closed = false;

  constructor(options: SidecarWriterOptions) {
    this.#options = options;
  }

  add(frame: string): void {
    if (this.#closed) return;
    this.#waiting.add(frame);
    this.#running ??= this.#run().finally(() => {
      this.#running = null;
    });
  }

  /** Takes no more and settles when the one under way is written; the rest is written at the next start. */
  async close(): Promise<void> {
    this.#closed = true;
    await this.#running;
  }

  async #run(): Promise<void> {
    // After whoever chose: what was chosen stands in the job's words then.
    await setImmediate();
    for (const frame of this.#waiting) {
      if (this.#closed) return;
      this.#waiting.delete(frame);
      await this.#write(frame).catch(this.#options.trouble);
    }
  }

  async #write(frame: string): Promise<void> {
    const row = await this.#options.row(frame);
    if (row?.marked !== true) return;
    const text = sidecarText(row, this.#options.job(row.job));
    for (const below of sidecarPaths(row)) {
      const path = join(this.#options.homePath, below);
      const there = await readSidecar(path);
      if (there === text) return;
      const found = there === null ? null : foundSidecar(there);
      if (found?.untouched === true && found.frame !== frame) continue;
      if (found?.untouched === false) {
        const aside = await setAside(path);
        this.#options.tell({ code: 'station.sidecar-set-aside', args: { path, aside } });
      }
      return writeSidecar(path, text);
    }
  }
}
