import { type EpochMs, epochMsToRfc3339, SetsideError } from '../../base/index.ts';
import type { PaperUnderWay } from '../../contract/index.ts';

/** Sheets drawn at once: each asks for one picture after the other, behind whom the next wait anyway. */
export const papersAtOnceMax = 2;
/** Of those, for guests: they must not keep the studio from its own. */
export const guestPapersAtOnceMax = 1;

export interface PaperBegun {
  readonly planned: (frames: number) => void;
  readonly done: (frames: number) => void;
  /** May be called twice. */
  readonly end: () => void;
}

/** Pages are told of a sheet no more often than that, ms: pictures that are there already are drawn by the hundred. */
export const tellEveryMs = 250;

interface Paper {
  readonly job: string;
  readonly forGuest: boolean;
  readonly startedMs: EpochMs;
  frames: number | null;
  done: number;
}

/** Contact sheets that are being drawn, and how far they are. */
export class UnderWay {
  readonly #now: () => EpochMs;
  readonly #tell: (job: string, papers: PaperUnderWay[]) => void;
  readonly #papers = new Set<Paper>();

  /** `tell`: hears when one begins, is counted, is drawn further, and ends. */
  constructor(now: () => EpochMs, tell: (job: string, papers: PaperUnderWay[]) => void = () => {}) {
    this.#now = now;
    this.#tell = tell;
  }

  /** Throws `busy`. */
  begin(job: string, forGuest = false): PaperBegun {
    const ofGuests = [...this.#papers].filter((each) => each.forGuest).length;
    if (this.#papers.size >= papersAtOnceMax || (forGuest && ofGuests >= guestPapersAtOnceMax))
      throw new SetsideError('busy', `${papersAtOnceMax} contact sheets are being drawn`, {
        retryable: true,
      });
    const paper: Paper = { job, forGuest, frames: null, done: 0, startedMs: this.#now() };
    let toldMs = this.#now();
    const tell = (): void => {
      toldMs = this.#now();
      this.#tell(job, this.of(job));
    };
    this.#papers.add(paper);
    tell();
    return {
      planned: (frames) => {
        paper.frames = frames;
        tell();
      },
      done: (frames) => {
        paper.done = frames;
        if (this.#now() - toldMs >= tellEveryMs) tell();
      },
      end: () => {
        if (this.#papers.delete(paper)) tell();
      },
    };
  }

  of(job: string): PaperUnderWay[] {
    return [...this.#papers]
      .filter((paper) => paper.job === job)
      .map(({ frames, done, startedMs }) => ({ frames, done, started: epochMsToRfc3339(startedMs) }));
  }
}
