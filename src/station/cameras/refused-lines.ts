import type { EpochMs } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';

/** Lines in one window: a person mistyping fits, a flood of strangers does not fill a terminal or a log file. */
export const refusedLinesMax = 10;
export const refusedWindowMs = 60_000;

/** Tells of clients that were refused, within a bound; what was left out is told as a number with the next line. */
export class RefusedLines {
  readonly #now: () => EpochMs;
  readonly #say: (finding: Finding) => void;
  #windowFromMs: EpochMs = Number.NEGATIVE_INFINITY;
  #said = 0;
  #leftOut = 0;

  constructor(now: () => EpochMs, say: (finding: Finding) => void) {
    this.#now = now;
    this.#say = say;
  }

  take(finding: Finding): void {
    const nowMs = this.#now();
    if (nowMs - this.#windowFromMs >= refusedWindowMs) this.#open(nowMs);
    if (this.#said === refusedLinesMax) {
      this.#leftOut += 1;
      return;
    }
    this.#said += 1;
    this.#say(finding);
  }

  #open(nowMs: EpochMs): void {
    if (this.#leftOut > 0) this.#say({ code: 'line.more-refused', args: { count: this.#leftOut } });
    this.#windowFromMs = nowMs;
    this.#said = 0;
    this.#leftOut = 0;
  }
}
