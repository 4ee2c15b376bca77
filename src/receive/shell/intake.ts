import type { Arrival } from '../core/camera-folder.ts';
import type { DoorLimits } from '../core/limits.ts';
import type { BufferPool } from './buffer-pool.ts';

/** Fewer bytes are not worth a write of their own while they still may grow. */
const writeBytesMin = 64 * 1024;
/**
 * Part of a buffer is handed on so often at most: each part costs a write and a hash, with a thread woken for both. At
 * 8 MB/s that is every 80 kB; a line that fills a buffer sooner sends only full ones.
 */
const partEveryMs = 10;

/** The bounds of one upload's memory, which every door has. */
export type IntakeLimits = Pick<DoorLimits, 'bufferBytes' | 'buffersPerUpload' | 'flushAfterMs'>;

export interface IntakeEvents {
  /** Reading may go on. */
  room(): void;
  /** A write was rejected: nothing more is handed on. */
  failed(): void;
}

interface Slot {
  readonly memory: Uint8Array;
  /** Bytes received into it. */
  filled: number;
  /** Bytes of these handed to the arrival. */
  issued: number;
  /** Writes that have not settled. */
  pending: number;
}

/**
 * Carries bytes from a socket to an arrival through a few fixed buffers, several writes under way at once. A slow line
 * takes one or two of them.
 *
 * The socket asks for {@link room}, fills some of it and says so with {@link received}. One buffer fills while the
 * others are being written; when no other is free, `received` says stop, and `room` is told when it may go on. The
 * buffer that is filling always has room left, so a stopped socket keeps a place for the read it has begun.
 */
export class Intake {
  receivedBytes = 0;
  /** The first write that was rejected; nothing is handed on after it. */
  failure: unknown = null;
  readonly #arrival: Pick<Arrival, 'write'>;
  readonly #limits: IntakeLimits;
  readonly #pool: BufferPool;
  readonly #events: IntakeEvents;
  readonly #free: Slot[] = [];
  #filling: Slot;
  /** Buffers taken from the pool. */
  #taken = 1;
  #pendingWrites = 0;
  #stopped = false;
  #issuedMs = 0;
  #settled: (() => void) | null = null;
  #flushTimer: NodeJS.Timeout | null = null;

  constructor(arrival: Pick<Arrival, 'write'>, limits: IntakeLimits, pool: BufferPool, events: IntakeEvents) {
    this.#arrival = arrival;
    this.#limits = limits;
    this.#pool = pool;
    this.#events = events;
    this.#filling = emptySlot(pool.take());
  }

  /** Where the next bytes go; never empty. The same memory is given until {@link received} is called. */
  room(): Uint8Array {
    return this.#filling.memory.subarray(this.#filling.filled);
  }

  /** `bytes` of {@link room} were filled. False: stop reading until told that there is room. */
  received(bytes: number): boolean {
    const slot = this.#filling;
    slot.filled += bytes;
    this.receivedBytes += bytes;
    if (slot.filled === slot.memory.length) {
      this.#issue(slot);
      this.#filling = this.#spare() ?? slot;
    } else if (this.#isWorthAWrite(slot)) {
      this.#issue(slot);
    } else {
      this.#flushSoon();
    }
    this.#stopped = this.#free.length === 0 && this.#taken === this.#limits.buffersPerUpload;
    return !this.#stopped && this.failure === null;
  }

  get isStopped(): boolean {
    return this.#stopped;
  }

  /** Hands on what is here and settles when every write has. One at a time. */
  async flush(): Promise<void> {
    this.#issue(this.#filling);
    if (this.#pendingWrites > 0) {
      await new Promise<void>((resolve) => {
        this.#settled = resolve;
      });
    }
  }

  /** The same, and the buffers go back to the pool. */
  async drain(): Promise<void> {
    await this.flush();
    if (this.#flushTimer !== null) clearTimeout(this.#flushTimer);
    for (const slot of [...this.#free, this.#filling]) this.#pool.give(slot.memory);
    this.#free.length = 0;
  }

  #spare(): Slot | undefined {
    const free = this.#free.pop();
    if (free !== undefined || this.#taken === this.#limits.buffersPerUpload) return free;
    this.#taken += 1;
    return emptySlot(this.#pool.take());
  }

  #isWorthAWrite(slot: Slot): boolean {
    return (
      this.#pendingWrites === 0 &&
      slot.filled - slot.issued >= writeBytesMin &&
      performance.now() - this.#issuedMs >= partEveryMs
    );
  }

  #issue(slot: Slot): void {
    const bytes = slot.memory.subarray(slot.issued, slot.filled);
    slot.issued = slot.filled;
    if (bytes.length === 0 || this.failure !== null) return;
    this.#issuedMs = performance.now();
    slot.pending += 1;
    this.#pendingWrites += 1;
    this.#arrival.write(bytes).then(
      () => this.#settle(slot),
      (failure: unknown) => {
        const first = this.failure === null;
        this.failure ??= failure ?? 'unknown';
        this.#settle(slot);
        if (first) this.#events.failed();
      },
    );
  }

  #settle(slot: Slot): void {
    slot.pending -= 1;
    this.#pendingWrites -= 1;
    if (slot.pending === 0 && slot !== this.#filling) {
      slot.filled = 0;
      slot.issued = 0;
      this.#free.push(slot);
    }
    if (this.#pendingWrites === 0) this.#settled?.();
    if (this.#stopped && this.#free.length > 0) {
      this.#stopped = false;
      this.#events.room();
    }
  }

  #flushSoon(): void {
    this.#flushTimer ??= setTimeout(() => {
      this.#flushTimer = null;
      this.#issue(this.#filling);
    }, this.#limits.flushAfterMs);
  }
}

function emptySlot(memory: Uint8Array): Slot {
  return { memory, filled: 0, issued: 0, pending: 0 };
}
