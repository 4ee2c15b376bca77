import { type EpochMs, epochMsToRfc3339, SetsideError } from '../../base/index.ts';
import type { PaperUnderWay } from '../../contract/index.ts';

/** Sheets drawn at once: each asks for one picture after the other, behind whom the next wait anyway. */
export const papersAtOnceMax = 2;

export interface PaperBegun {
  readonly planned: (frames: number) => void;
  readonly done: (frames: number) => void;
  /** May be called twice. */
  readonly end: () => void;
}

/** Contact sheets that are being drawn, and how far they are. */
export class UnderWay {
  readonly #now: () => EpochMs;
  readonly #papers = new Set<{ job: string; frames: number | null; done: number; startedMs: EpochMs }>();

  constructor(now: () => EpochMs) {
    this.#now = now;
  }

  /** Throws `busy`. */
  begin(job: string): PaperBegun {
    if (this.#papers.size >= papersAtOnceMax)
      throw new SetsideError('busy', `${papersAtOnceMax} contact sheets are being drawn`, {
        retryable: true,
      });
    const paper = { job, frames: null as number | null, done: 0, startedMs: this.#now() };
    this.#papers.add(paper);
    return {
      planned: (frames) => {
        paper.frames = frames;
      },
      done: (frames) => {
        paper.done = frames;
      },
      end: () => {
        this.#papers.delete(paper);
      },
    };
  }

  of(job: string): PaperUnderWay[] {
    return [...this.#papers]
      .filter((paper) => paper.job === job)
      .map(({ frames, done, startedMs }) => ({ frames, done, started: epochMsToRfc3339(startedMs) }));
  }
}
