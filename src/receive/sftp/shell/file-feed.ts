import { errorCode } from '../../../base/index.ts';
import {
  type Arrival,
  type ArrivalEnd,
  type ArrivalOutcome,
  type FolderErrorCode,
  folderErrorCodes,
} from '../../core/camera-folder.ts';
import type { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { Intake } from '../../shell/intake.ts';
import type { SftpLimits } from '../core/limits.ts';

export interface FileFeedEvents {
  /** There is room again after {@link FileFeed.isBehind}. */
  room(): void;
  failed(code: FolderErrorCode): void;
  /** Another connection needs the place. */
  interrupted(end: ArrivalEnd): void;
}

/** Carries the bytes of one file from its WRITEs through a few fixed buffers into its arrival. */
export class FileFeed {
  readonly #arrival: Arrival;
  readonly #events: FileFeedEvents;
  readonly #intake: Intake;
  /** Bytes without a buffer yet: at most one packet, and what a filled gap let go. */
  #queue: Uint8Array[] = [];
  #heardMs: number = nowMs();
  #emptied: (() => void) | null = null;

  constructor(arrival: Arrival, limits: SftpLimits, pool: BufferPool, events: FileFeedEvents) {
    this.#arrival = arrival;
    this.#events = events;
    this.#intake = new Intake(arrival, limits, pool, {
      room: () => this.#pump(),
      failed: () => {
        events.failed(folderCode(this.#intake.failure));
        this.#pump();
      },
    });
  }

  /** Whether the disk is slower than the line: nothing more may be heard of the client for now. */
  get isBehind(): boolean {
    return this.#queue.length > 0 || (this.#intake.isStopped && this.#intake.failure === null);
  }

  /** How long nothing has come; while the disk is behind, that is not the client's doing. */
  get silentMs(): number {
    return this.isBehind ? 0 : nowMs() - this.#heardMs;
  }

  interrupt(end: ArrivalEnd): void {
    this.#events.interrupted(end);
  }

  /** The pieces are copied, now or soon; they must stay as they are until then. */
  write(pieces: readonly Uint8Array[]): void {
    this.#heardMs = nowMs();
    this.#queue.push(...pieces);
    this.#pump();
  }

  async sync(): Promise<void> {
    await this.#empty();
    await this.#intake.flush();
    if (this.#intake.failure !== null) throw this.#intake.failure;
    await this.#arrival.sync();
  }

  async finish(end: ArrivalEnd): Promise<ArrivalOutcome> {
    await this.#empty();
    await this.#intake.drain();
    return this.#arrival.finish(this.#intake.failure === null ? end : 'failed');
  }

  #pump(): void {
    const wasBehind = this.isBehind || this.#emptied !== null;
    if (this.#intake.failure !== null) this.#queue = [];
    while (!this.#intake.isStopped) {
      const piece = this.#queue.shift();
      if (piece === undefined) break;
      const room = this.#intake.room();
      const taken = Math.min(piece.length, room.length);
      room.set(piece.subarray(0, taken));
      if (taken < piece.length) this.#queue.unshift(piece.subarray(taken));
      this.#intake.received(taken);
    }
    if (this.#queue.length === 0) this.#emptied?.();
    if (wasBehind || !this.isBehind) this.#events.room();
  }

  async #empty(): Promise<void> {
    if (this.#queue.length === 0) return;
    await new Promise<void>((resolve) => {
      this.#emptied = resolve;
    });
    this.#emptied = null;
  }
}

export function folderCode(trouble: unknown): FolderErrorCode {
  const code = errorCode(trouble);
  return folderErrorCodes.find((known) => known === code) ?? 'disk-failed';
}
