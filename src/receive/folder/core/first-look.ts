import type { EpochMs } from '../../../base/index.ts';
import type { FolderLimits } from './limits.ts';

/**
 * A folder being looked through from its start to its end. What lies there is not copied meanwhile: on a slow reader the
 * look takes longer than a file has to lie still, and what is the newest of all is known only when all were seen.
 */
export class FirstLook {
  readonly #beganMs: EpochMs;
  readonly #limits: Pick<FolderLimits, 'quietMs' | 'firstLookMs'>;
  #beingSeen = 0;
  #isListed = false;
  #overMs: EpochMs | null = null;

  constructor(limits: Pick<FolderLimits, 'quietMs' | 'firstLookMs'>, nowMs: EpochMs) {
    this.#limits = limits;
    this.#beganMs = nowMs;
  }

  /** A file has been named and is asked for its size and time; {@link seen} says when it is known. */
  seeing(): void {
    this.#beingSeen += 1;
  }

  seen(nowMs: EpochMs): void {
    this.#beingSeen -= 1;
    this.#endIfAllSeen(nowMs);
  }

  /** All names were told. */
  listed(nowMs: EpochMs): void {
    this.#isListed = true;
    this.#endIfAllSeen(nowMs);
  }

  /**
   * Whether the files that lie still may be copied, the newest first: all were seen, and the last of them has lain still
   * for as long as the first. Or the look takes so long that something had better begin.
   */
  isOver(nowMs: EpochMs): boolean {
    const { quietMs, firstLookMs } = this.#limits;
    if (this.#overMs !== null) return nowMs >= this.#overMs + quietMs;
    return nowMs >= this.#beganMs + firstLookMs;
  }

  #endIfAllSeen(nowMs: EpochMs): void {
    if (this.#isListed && this.#beingSeen === 0) this.#overMs ??= nowMs;
  }
}
