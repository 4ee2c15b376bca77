import { MiB } from '../../base/index.ts';

/** Left free on a second place, for its journal, bytes: a copy that would leave less finds no room. */
export const placeFloorBytes = 64 * MiB;

/**
 * What a second place that is full may still take: a file that found no room holds back none that is smaller. Tried
 * again after a while, the newest first, whatever its size.
 */
export class RoomLeft {
  readonly #retryMs: number;
  readonly #nowMs: () => number;
  /** The smallest that found no room since it was tried again; null while there is room. */
  #tooLargeBytes: number | null = null;
  #retryAtMs = 0;

  constructor(retryMs: number, nowMs: () => number = () => performance.now()) {
    this.#retryMs = retryMs;
    this.#nowMs = nowMs;
  }

  get isFull(): boolean {
    return this.#tooLargeBytes !== null;
  }

  /** Whether a file of this size is worth a try now. */
  mayTake(sizeBytes: number): boolean {
    return this.#tooLargeBytes === null || sizeBytes < this.#tooLargeBytes || this.retryInMs() === 0;
  }

  /** Until anything may be tried again; 0 where it may. */
  retryInMs(): number {
    return this.isFull ? Math.max(0, this.#retryAtMs - this.#nowMs()) : 0;
  }

  foundNone(sizeBytes: number): void {
    const isRetry = this.retryInMs() === 0;
    this.#tooLargeBytes =
      this.#tooLargeBytes === null || isRetry ? sizeBytes : Math.min(this.#tooLargeBytes, sizeBytes);
    if (isRetry) this.#retryAtMs = this.#nowMs() + this.#retryMs;
  }

  /** A file was copied. One that is smaller than what found no room proves nothing. */
  took(sizeBytes: number): void {
    if (this.#tooLargeBytes !== null && sizeBytes >= this.#tooLargeBytes) this.#tooLargeBytes = null;
  }

  /** Nothing waits for room any more. */
  nothingWaits(): void {
    this.#tooLargeBytes = null;
  }
}
